// Starts `loadline lsp` where a journal is open; the language server does the rest.
'use strict';

const { workspace } = require('vscode');
const { LanguageClient } = require('vscode-languageclient/node');

let client;

exports.activate = () => {
  const settings = workspace.getConfiguration('loadline');
  const program = { command: settings.get('command', 'loadline'), args: ['lsp'] };
  client = new LanguageClient('loadline', 'Loadline', program, {
    documentSelector: [
      { scheme: 'file', language: 'markdown' },
      { scheme: 'file', pattern: '**/{journal,lifter}.yaml' },
    ],
    initializationOptions: settings,
    synchronize: { configurationSection: 'loadline' },
  });
  return client.start();
};

exports.deactivate = () => client?.stop();
