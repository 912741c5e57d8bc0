//! The loop. Nothing ends it but the editor: a request that goes wrong is answered with an error, and a line on standard
//! error says so.

use super::capabilities::{capabilities, encoding, links, watching};
use super::server::Server;
use super::switches::Switches;
use super::table::{NOTICES, REQUESTS, Refused};
use super::uri;
use crate::editor::held::Machine;
use gen_lsp_types::{InitializeParams, InitializeResult, ServerInfo, WorkspaceFolders};
use lsp_server::{Connection, ErrorCode, Message, Notification, Request, Response};
use std::io::Write;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// Serves an editor until it says that it is enough, or is gone.
///
/// # Errors
/// Where the editor does not greet as the protocol has it.
pub fn serve(connection: &Connection, machine: Machine) -> Result<(), String> {
    let (id, greeting) = connection.initialize_start().map_err(|error| match error.channel_is_disconnected() {
        true => "the editor was gone before it said what it can do".to_owned(),
        false => error.to_string(),
    })?;
    let params: InitializeParams = serde_json::from_value(greeting).unwrap_or_default();
    let encoding = encoding(&params);
    let info = ServerInfo { name: "loadline".to_owned(), version: Some(env!("CARGO_PKG_VERSION").to_owned()) };
    let greeted = InitializeResult { capabilities: capabilities(encoding), server_info: Some(info) };
    send(connection, Message::Response(Response::new_ok(id, greeted)));
    let switches = params.initialization_options.as_ref().and_then(Switches::said).unwrap_or_default();
    let mut server = Server::new(machine, encoding, switches, links(&params));
    folders(&params).iter().for_each(|folder| server.workspace.add(folder));
    work(connection, &mut server, watching(&params));
    Ok(())
}

/// The folders that the editor has open.
fn folders(params: &InitializeParams) -> Vec<std::path::PathBuf> {
    match &params.workspace_folders_initialize_params.workspace_folders {
        Some(WorkspaceFolders::WorkspaceFolderList(all)) => {
            all.iter().filter_map(|folder| uri::file(&folder.uri)).collect()
        }
        // The protocol's older way.
        #[allow(deprecated)]
        _ => params.root_uri.iter().filter_map(uri::file).collect(),
    }
}

/// Takes one message after the other. `first` is what is asked of the editor once it is ready.
fn work(connection: &Connection, server: &mut Server, mut first: Option<Request>) {
    while let Ok(message) = connection.receiver.recv() {
        match message {
            Message::Request(request) if request.method == "shutdown" => {
                send(connection, Message::Response(Response::new_ok(request.id, ())));
            }
            Message::Request(request) => {
                let response = answer(server, request);
                send(connection, Message::Response(response));
            }
            Message::Notification(notice) if notice.method == "exit" => return,
            Message::Notification(notice) if notice.method == "initialized" => {
                first.take().into_iter().for_each(|request| send(connection, Message::Request(request)));
            }
            Message::Notification(notice) => take(server, notice),
            Message::Response(_) => {}
        }
        // Who types on is told of problems when the last letter that waits is taken in.
        if server.stale && connection.receiver.is_empty() {
            tell(connection, server);
        }
    }
}

/// Answers a request, whatever happens.
fn answer(server: &mut Server, request: Request) -> Response {
    let Request { id, method, params } = request;
    let Some((_, answers)) = REQUESTS.iter().find(|(name, _)| *name == method) else {
        return Response::new_err(id, ErrorCode::MethodNotFound as i32, format!("`{method}` is not answered here"));
    };
    match unharmed(server, &method, |server| answers(server, params)) {
        Some(Ok(answer)) => Response::new_ok(id, answer),
        Some(Err(Refused::Unread(why))) => Response::new_err(id, ErrorCode::InvalidParams as i32, why),
        Some(Err(Refused::Cannot(why))) => Response::new_err(id, ErrorCode::RequestFailed as i32, why),
        None => Response::new_err(id, ErrorCode::InternalError as i32, format!("`{method}` went wrong")),
    }
}

fn take(server: &mut Server, notice: Notification) {
    let Some((_, takes)) = NOTICES.iter().find(|(name, _)| *name == notice.method) else { return };
    if let Some(Err(Refused::Unread(why) | Refused::Cannot(why))) =
        unharmed(server, &notice.method, |server| takes(server, notice.params))
    {
        say(&format!("{}: {why}", notice.method));
    }
}

/// Tells of problems that are others than before.
fn tell(connection: &Connection, server: &mut Server) {
    server.stale = false;
    for news in unharmed(server, "problems", Server::news).unwrap_or_default() {
        send(connection, Message::Notification(Notification::new("textDocument/publishDiagnostics".to_owned(), news)));
    }
}

/// Does something; where it panics, that is said, what was kept is dropped, and the server lives on.
fn unharmed<T>(server: &mut Server, what: &str, work: impl FnOnce(&mut Server) -> T) -> Option<T> {
    let done = catch_unwind(AssertUnwindSafe(|| work(server)));
    if done.is_err() {
        say(&format!("{what} went wrong; all pages are read anew"));
        server.workspace.all().for_each(|held| held.forget());
    }
    done.ok()
}

pub(super) fn say(words: &str) {
    // There is nobody left to tell where this fails.
    let _ = writeln!(std::io::stderr(), "loadline lsp: {words}");
}

fn send(connection: &Connection, message: Message) {
    // An editor that is gone ends the loop.
    let _ = connection.sender.send(message);
}
