//! The handlers of requests that change text: each answers with edits, which the editor applies.

use super::server::{Refusal, Server};
use super::wire::text_edits;
use crate::editor::abilities::{fixes, formatting, rename};
use crate::editor::values::Mend;
use crate::problems::Problem;
use gen_lsp_types::{
    CodeAction, CodeActionKind, CodeActionParams, CodeActionResponse, DocumentFormattingParams,
    DocumentOnTypeFormattingParams, DocumentRangeFormattingParams, PrepareRenameParams, PrepareRenameResult,
    RenameParams, TextEdit, WorkspaceEdit,
};

type Answer<T> = Result<Option<T>, Refusal>;

pub(super) fn formatting(server: &mut Server, asked: DocumentFormattingParams) -> Answer<Vec<TextEdit>> {
    Ok(server.page(&asked.text_document.uri, |file, scene| text_edits(&file.text, &formatting::formatting(scene))))
}

pub(super) fn range_formatting(server: &mut Server, asked: DocumentRangeFormattingParams) -> Answer<Vec<TextEdit>> {
    Ok(server.page(&asked.text_document.uri, |file, scene| {
        let place = file.text.span(asked.range);
        text_edits(&file.text, &formatting::range_formatting(scene, place))
    }))
}

pub(super) fn on_type_formatting(server: &mut Server, asked: DocumentOnTypeFormattingParams) -> Answer<Vec<TextEdit>> {
    Ok(server.page(&asked.text_document.uri, |file, scene| {
        let offset = file.text.offset(asked.position);
        text_edits(&file.text, &formatting::on_new_line(scene, offset))
    }))
}

pub(super) fn code_actions(server: &mut Server, asked: CodeActionParams) -> Answer<Vec<CodeActionResponse>> {
    let only = asked.context.only;
    let wants = |kind: &CodeActionKind| {
        let is_below = |wanted: &CodeActionKind| format!("{kind}.").starts_with(&format!("{wanted}."));
        only.as_ref().is_none_or(|only| only.iter().any(|one| *one == CodeActionKind::Empty || is_below(one)))
    };
    let (quick, all) = (wants(&CodeActionKind::QuickFix), wants(&CodeActionKind::SourceFixAll));
    Ok(server.file(&asked.text_document.uri, |file| {
        let problems: Vec<Problem> = file.found.iter().map(|found| found.problem.clone()).collect();
        let place = file.text.span(asked.range);
        let mut actions = Vec::new();
        if quick {
            let mends = fixes::fixes(file.page, &problems, file.scene.as_ref(), place);
            actions.extend(mends.into_iter().map(|mend| (CodeActionKind::QuickFix, mend)));
        }
        if all {
            actions.extend(fixes::fix_all(file.page, &problems).map(|mend| (CodeActionKind::SourceFixAll, mend)));
        }
        let action = |(kind, mend): (CodeActionKind, Mend)| {
            let of = mend.problem.as_ref().and_then(|problem| file.found.iter().find(|one| one.problem == *problem));
            CodeActionResponse::CodeAction(CodeAction {
                title: mend.title,
                kind: Some(kind),
                diagnostics: of.map(|found| vec![file.diagnostic(found)]),
                is_preferred: mend.preferred.then_some(true),
                edit: Some(file.edit(&mend.edits)),
                ..CodeAction::default()
            })
        };
        actions.into_iter().map(action).collect()
    }))
}

pub(super) fn prepare_rename(server: &mut Server, asked: PrepareRenameParams) -> Answer<PrepareRenameResult> {
    let at = asked.text_document_position_params;
    let span = server.page(&at.text_document.uri, |file, scene| {
        Some(file.text.range(rename::renamable(scene, file.text.offset(at.position))?))
    });
    Ok(span.flatten().map(Into::into))
}

pub(super) fn rename(server: &mut Server, asked: RenameParams) -> Answer<WorkspaceEdit> {
    let at = asked.text_document_position_params;
    let edits = server.page(&at.text_document.uri, |file, scene| {
        rename::rename(scene, file.text.offset(at.position), &asked.new_name).map(|edits| file.edit(&edits))
    });
    edits.transpose().map_err(Refusal)
}
