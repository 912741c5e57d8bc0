// The packed extension of docs/editors/vscode, with the library in it that speaks to the server, and a stand-in for the editor
// that holds what it is given: `node vscode.js PACKAGES VSIX`, in a journal's folder, LOADLINE the program. What is said stands
// in said.txt.
'use strict';

const fs = require('fs');
const os = require('os');
const path = require('path');
const Module = require('module');
const { pathToFileURL, fileURLToPath } = require('url');

const [packages, vsix] = process.argv.slice(2);
const program = process.env.LOADLINE;
const extension = path.join(fs.mkdtempSync(path.join(os.homedir(), 'vsix-')), 'extension');

/** Unpacks what the editor is given to install. */
const unpacked = () => new Promise((done, failed) => {
  const { open } = require(path.join(packages, 'yauzl'));
  open(vsix, { lazyEntries: true }, (error, zip) => {
    if (error) return failed(error);
    zip.on('error', failed).on('end', done).on('entry', (entry) => zip.openReadStream(entry, (error, stream) => {
      if (error) return failed(error);
      const place = path.join(extension, '..', entry.fileName);
      fs.mkdirSync(path.dirname(place), { recursive: true });
      stream.pipe(fs.createWriteStream(place)).on('close', () => zip.readEntry()).on('error', failed);
    }));
    zip.readEntry();
  });
});

// ---- The editor: values first.

class Position {
  constructor(line, character) { Object.assign(this, { line, character }); }
}
class Range {
  constructor(a, b, c, d) {
    const [start, end] = typeof a === 'number' ? [new Position(a, b), new Position(c, d)] : [a, b];
    Object.assign(this, { start, end });
  }
}
class Uri {
  constructor(text) { this.text = text; this.scheme = text.split(':')[0]; this.fsPath = fileURLToPath(text); }
  static parse(text) { return new Uri(text); }
  static file(place) { return new Uri(pathToFileURL(place).href); }
  toString() { return this.text; }
}
class TextEdit {
  constructor(range, newText) { Object.assign(this, { range, newText }); }
  static replace(range, text) { return new TextEdit(range, text); }
  static insert(at, text) { return new TextEdit(new Range(at, at), text); }
  static delete(range) { return new TextEdit(range, ''); }
}
class WorkspaceEdit {
  constructor() { this.edits = new Map(); }
  set(uri, edits) { this.edits.set(uri.toString(), edits.map((edit) => (Array.isArray(edit) ? edit[0] : edit))); }
}
class Kind {
  constructor(value) { this.value = value; }
  append(more) { return new Kind(`${this.value}.${more}`); }
}
class Emitter {
  constructor() {
    this.heard = new Set();
    this.event = (ear, self) => {
      const bound = self ? ear.bind(self) : ear;
      this.heard.add(bound);
      return { dispose: () => this.heard.delete(bound) };
    };
  }
  async fire(what) { for (const ear of [...this.heard]) await ear(what); }
  dispose() {}
}
class TokenSource {
  constructor() { this.token = { isCancellationRequested: false, onCancellationRequested: () => ({ dispose() {} }) }; }
  cancel() {}
  dispose() {}
}

// Of every other class it is enough that it holds what it is made with, and every list of words names its own.
const plain = (name) => ({ [name]: class { constructor(...given) { this.given = given; Object.assign(this, given[0]); } } })[name];
const filled = (own, other) => new Proxy(own, {
  get: (known, name) => (name in known || typeof name !== 'string' ? known[name] : (known[name] = other(name))),
});
const nothing = { dispose() {} };

// ---- The editor: what happens, and who offers what.

const events = filled({}, () => new Emitter());
const offers = {};
const problems = new Map();
const documents = [];
const said = [];

/** `registerHoverProvider` keeps the provider as `offers.Hover`, whose selector is asked before the provider is. */
const registering = (own) => filled(own, (name) => {
  if (name.startsWith('on')) return events[name].event;
  const kind = /^register(.*)Provider$/.exec(name)?.[1];
  if (kind) return (selector, provider) => { offers[kind] = { selector, provider }; return nothing; };
  if (name.startsWith('create')) return () => filled({}, () => () => nothing);
  return () => undefined;
});
/** What the extension says of its settings, with the program as a person would name it. */
const own = new Map();

/** The settings below a name, as a tree. */
function settings(section) {
  const tree = {};
  for (const [key, value] of own) {
    const parts = key.split('.');
    const last = parts.pop();
    parts.reduce((at, part) => (at[part] ??= {}), tree)[last] = value;
  }
  const below = section ? section.split('.').reduce((at, part) => at?.[part], tree) : tree;
  return { ...below, get: (name, other) => name.split('.').reduce((at, part) => at?.[part], below) ?? other };
}

const kinds = (name) => filled({}, (word) => `${name}.${word}`);
const folder = { uri: Uri.file(process.cwd()), name: 'journal', index: 0 };
const editor = {
  Position, Range, Uri, TextEdit, WorkspaceEdit,
  EventEmitter: Emitter,
  CancellationTokenSource: TokenSource,
  CancellationError: class extends Error {},
  Disposable: class { constructor(dispose) { this.dispose = dispose ?? (() => {}); } },
  Hover: class { constructor(contents, range) { Object.assign(this, { contents, range }); } },
  MarkdownString: class { constructor(value) { this.value = value; } },
  CompletionItem: class { constructor(label) { this.label = label; } },
  CompletionList: class { constructor(items, isIncomplete) { Object.assign(this, { items, isIncomplete }); } },
  Diagnostic: class { constructor(range, message, severity) { Object.assign(this, { range, message, severity }); } },
  CodeAction: class { constructor(title) { this.title = title; } },
  CodeActionKind: filled({}, (name) => new Kind(name)),
  InlayHint: class { constructor(position, label) { Object.assign(this, { position, label }); } },
  version: '1.82.0',
  env: filled({ language: 'en', appName: 'stand-in', onDidChangeTelemetryEnabled: events.telemetry.event }, () => undefined),
  l10n: { t: (words) => words },
  extensions: { getExtension: () => undefined, all: [], onDidChange: events.extensions.event },
  commands: { registerCommand: (name) => { said.push(`command ${name}`); return nothing; }, executeCommand: async () => undefined },
  languages: registering({
    createDiagnosticCollection: () => ({
      set: (uri, found) => problems.set(uri.toString(), found),
      delete: (uri) => problems.delete(uri.toString()),
      clear: () => problems.clear(),
      dispose() {},
    }),
    match: (selector, document) => {
      const fits = ({ scheme, language, pattern }) =>
        (!scheme || document.uri.scheme === scheme) &&
        (!language || document.languageId === language) &&
        (!pattern || /\/(journal|lifter)\.yaml$/.test(document.uri.toString()));
      return [].concat(selector).some(fits) ? 10 : 0;
    },
  }),
  window: registering({
    createOutputChannel: () => filled({}, () => () => undefined),
    activeTextEditor: undefined,
    visibleTextEditors: [],
    tabGroups: filled({ all: [] }, (name) => (name.startsWith('on') ? events[name].event : undefined)),
    showErrorMessage: async (words) => said.push(`error: ${words}`),
  }),
  workspace: registering({
    getConfiguration: (section) => settings(section),
    textDocuments: documents,
    notebookDocuments: [],
    workspaceFolders: [folder],
    getWorkspaceFolder: () => folder,
    createFileSystemWatcher: (glob) => {
      said.push(`watches ${glob.pattern ?? glob}`);
      return filled({}, (name) => (name.startsWith('on') ? () => nothing : () => {}));
    },
    fs: { isWritableFileSystem: () => true },
  }),
};
for (const name of ['SymbolKind', 'CompletionItemKind', 'CompletionItemTag', 'DiagnosticSeverity', 'DiagnosticTag', 'SymbolTag',
  'CodeActionTriggerKind', 'CompletionTriggerKind', 'InlayHintKind', 'FoldingRangeKind', 'DocumentHighlightKind', 'ViewColumn',
  'ConfigurationTarget', 'TextDocumentSaveReason', 'TextDocumentChangeReason', 'StatusBarAlignment', 'ProgressLocation',
  'SignatureHelpTriggerKind', 'FileType', 'EndOfLine', 'NotebookCellKind', 'InlineCompletionTriggerKind']) {
  editor[name] = kinds(name);
}
const stand = filled(editor, plain);
const load = Module._load;
Module._load = (name, ...more) => (name === 'vscode' ? stand : load(name, ...more));

// ---- The page, and what is typed in it.

const place = path.join(process.cwd(), 'page.md');
const page = {
  uri: Uri.file(place), languageId: 'markdown', version: 1, isClosed: false, isDirty: false, eol: 1, fileName: place,
  text: fs.readFileSync(place, 'utf8'),
  getText() { return this.text; },
};

function offset(text, { line, character }) {
  return text.split('\n').slice(0, line).reduce((sum, one) => sum + one.length + 1, 0) + character;
}

function edited(text, edits) {
  const from = (edit) => offset(text, edit.range.start);
  const later = [...edits].sort((one, other) => from(other) - from(one));
  return later.reduce((now, edit) => now.slice(0, from(edit)) + edit.newText + now.slice(offset(text, edit.range.end)), text);
}

async function type(edits) {
  const contentChanges = edits.map(({ range, newText }) => ({ range, text: newText, rangeOffset: 0, rangeLength: 0 }));
  page.text = edited(page.text, edits);
  page.version += 1;
  await events.onDidChangeTextDocument.fire({ document: page, contentChanges, reason: undefined });
}

/** Makes the edits of all files, that of the open page in the editor. */
async function apply(edit) {
  for (const [uri, edits] of edit.edits) {
    if (uri === page.uri.toString()) await type(edits);
    else fs.writeFileSync(fileURLToPath(uri), edited(fs.readFileSync(fileURLToPath(uri), 'utf8'), edits));
  }
}

async function until(what) {
  for (let waited = 0; waited < 30000; waited += 20) {
    const found = await what();
    if (found) return found;
    await new Promise((go) => setTimeout(go, 20));
  }
  throw new Error(`never: ${what}`);
}

const token = new TokenSource().token;
const last = () => page.text.split('\n').length - 1;

async function main() {
  await unpacked();
  const manifest = JSON.parse(fs.readFileSync(path.join(extension, 'package.json'), 'utf8'));
  for (const [key, { default: value }] of Object.entries(manifest.contributes.configuration.properties)) own.set(key, value);
  own.set('loadline.command', program);
  const { activate, deactivate } = require(path.join(extension, manifest.main));
  await activate({ subscriptions: [] });
  documents.push(page);
  await events.onDidOpenTextDocument.fire(page);

  // A wrong line, its problem, its fix.
  const end = new Position(last(), 0);
  await type([TextEdit.insert(end, '- Bench press: 3x8 @ 60.5 kg RPE 8-7 (é💪)\n')]);
  const [problem] = await until(() => problems.get(page.uri.toString())?.length && problems.get(page.uri.toString()));
  said.push(`${problem.range.start.line} ${problem.range.start.character} ${problem.code?.value ?? problem.code} ${problem.message}`);
  const actions = offers.CodeActions.provider;
  const context = { diagnostics: [problem], only: undefined, triggerKind: 1 };
  const [fix] = await actions.provideCodeActions(page, problem.range, context, token);
  await apply(fix.edit);

  // A lift is completed, and written on.
  await type([TextEdit.insert(new Position(last(), 0), '- Fro')]);
  const at = new Position(last(), 5);
  const list = await offers.CompletionItem.provider.provideCompletionItems(page, at, token, { triggerKind: 0 });
  const items = list.items ?? list;
  const item = items.find(({ label }) => (label.label ?? label) === 'Front squat');
  said.push(`${item.label.label ?? item.label} ${item.detail}`);
  const range = item.range.replacing ?? item.range;
  await type([new TextEdit(range, item.insertText)]);
  await type([TextEdit.insert(new Position(last(), page.text.split('\n').pop().length), '3x5 @ 110 kg RPE 8\n')]);

  // What is said of a lift.
  const hover = await offers.Hover.provider.provideHover(page, new Position(2, 5), token);
  const words = [].concat(hover.contents).map((one) => one.value ?? one).join('\n');
  said.push(`hover ${/3x8 @ 50 kg/.test(words)}`);

  // A lift is called another name, in every file.
  await apply(await offers.Rename.provider.provideRenameEdits(page, new Position(2, 5), 'Harbour squat', token));
  fs.writeFileSync(place, page.text);

  // What stands behind a load that is no plain mass; and switches are turned.
  await type([TextEdit.insert(new Position(last(), 0), '- Bench press: 3x8 @ 2x16 kg RPE 8-7\n')]);
  await until(() => problems.get(page.uri.toString())?.length);
  const behind = async () => (await offers.InlayHints.provider.provideInlayHints(page, new Range(0, 0, last(), 0), token)) ?? [];
  said.push(`behind ${(await behind()).map(({ label }) => label).join()}`);
  own.set('loadline.problems', false).set('loadline.hints.mass', false);
  await events.onDidChangeConfiguration.fire({ affectsConfiguration: () => true });
  await until(() => !problems.get(page.uri.toString())?.length);
  said.push(`turned off ${(await behind()).length}`);
  await deactivate();
}

main().then(
  () => { fs.writeFileSync('said.txt', said.join('\n') + '\n'); process.exit(0); },
  (error) => { console.error(said.join('\n'), error); process.exit(1); },
);
