//! Each request's handler: what the wire asks, put to an ability, and its answer as the wire has it.
//! What changes text is in `changes.rs`.

use super::server::{Refusal, Server};
use super::wire;
use crate::editor::abilities::{card, completion, going, hints, hover, lens, outline, tokens, under};
use crate::editor::values::{HintKind, Lens, LiftSymbol};
use crate::source::Place;
use gen_lsp_types::*;
use serde_json::{Value, json};

type Answer<T> = Result<Option<T>, Refusal>;

/// The command that gives the card of the session at a place.
pub(super) const CARD: &str = "loadline.session";

pub(super) fn hover(server: &mut Server, asked: HoverParams) -> Answer<Hover> {
    let at = asked.text_document_position_params;
    let links = server.links;
    let said = server.page(&at.text_document.uri, |file, scene| {
        let lead = |place: &Place| Some(format!("{}#L{}", file.address(&place.page).filter(|_| links)?, place.line));
        let said = hover::hover(scene, file.text.offset(at.position), &lead)?;
        let contents = MarkupContent { kind: MarkupKind::Markdown, value: said.markdown }.into();
        Some(Hover { contents, range: Some(file.text.range(said.span)) })
    });
    Ok(said.flatten())
}

pub(super) fn completion(server: &mut Server, asked: CompletionParams) -> Answer<CompletionResponse> {
    let at = asked.text_document_position_params;
    Ok(server.file(&at.text_document.uri, |file| {
        let offset = file.text.offset(at.position);
        let (offers, more) = match &file.scene {
            Some(scene) => completion::completion(scene, offset),
            None if file.is_settings() => (completion::settings::completion(file.page, offset), false),
            None => (Vec::new(), false),
        };
        let data = json!([at.text_document.uri, at.position]);
        let item = |(number, offer)| wire::completion_item(&file.text, number, offer, &data);
        let items = offers.iter().enumerate().map(item).collect();
        CompletionList { is_incomplete: more, items, ..CompletionList::default() }.into()
    }))
}

/// More of an item: what is said of a load.
pub(super) fn completion_item(server: &mut Server, asked: CompletionItem) -> Result<CompletionItem, Refusal> {
    let data = asked.data.clone().and_then(|data| serde_json::from_value::<(Uri, Position)>(data).ok());
    let said = data.and_then(|(address, position)| {
        server.page(&address, |file, scene| {
            let line = scene.line_of(file.text.offset(position));
            hover::load_to_be(scene, &asked.label, line)
        })
    });
    let documentation = said.flatten().map(|value| MarkupContent { kind: MarkupKind::Markdown, value }.into());
    Ok(CompletionItem { documentation, ..asked })
}

pub(super) fn inlay_hints(server: &mut Server, asked: InlayHintParams) -> Answer<Vec<InlayHint>> {
    Ok(server.page(&asked.text_document.uri, |file, scene| {
        let on = file.switches.hints;
        let wanted = |kind: HintKind| match kind {
            HintKind::Verdict => on.verdict,
            HintKind::Next => on.next,
            HintKind::Mass => on.mass,
        };
        let hints = hints::hints(scene, file.text.span(asked.range), &wanted);
        hints.into_iter().map(|hint| wire::inlay_hint(&file.text, hint)).collect()
    }))
}

pub(super) fn symbols(server: &mut Server, asked: DocumentSymbolParams) -> Answer<DocumentSymbolResponse> {
    Ok(server.page(&asked.text_document.uri, |file, scene| {
        let symbols: Vec<DocumentSymbol> =
            outline::symbols(scene).into_iter().map(|symbol| wire::document_symbol(&file.text, symbol)).collect();
        symbols.into()
    }))
}

pub(super) fn folds(server: &mut Server, asked: FoldingRangeParams) -> Answer<Vec<FoldingRange>> {
    Ok(server.page(&asked.text_document.uri, |file, scene| {
        let fold = |span| {
            let Range { start, end } = file.text.range(span);
            FoldingRange { start_line: start.line, end_line: end.line, ..FoldingRange::default() }
        };
        outline::folds(scene).into_iter().map(fold).collect()
    }))
}

pub(super) fn selections(server: &mut Server, asked: SelectionRangeParams) -> Answer<Vec<SelectionRange>> {
    Ok(server.page(&asked.text_document.uri, |file, scene| {
        let around = |position: &Position| {
            let offset = file.text.offset(*position);
            let thing = under::under(&scene.page, offset).map(|under| under.span);
            wire::selection(&file.text, &outline::around(scene, offset, thing))
        };
        asked.positions.iter().map(around).collect()
    }))
}

pub(super) fn definition(server: &mut Server, asked: DefinitionParams) -> Answer<DefinitionResponse> {
    let at = asked.text_document_position_params;
    let found = server.page(&at.text_document.uri, |file, scene| {
        file.location(&going::definition(scene, file.text.offset(at.position))?)
    });
    Ok(found.flatten().map(|location| Definition::from(location).into()))
}

pub(super) fn references(server: &mut Server, asked: ReferenceParams) -> Answer<Vec<Location>> {
    let at = asked.text_document_position_params;
    Ok(server.page(&at.text_document.uri, |file, scene| {
        file.locations(&going::references(scene, file.text.offset(at.position)))
    }))
}

pub(super) fn highlights(server: &mut Server, asked: DocumentHighlightParams) -> Answer<Vec<DocumentHighlight>> {
    let at = asked.text_document_position_params;
    Ok(server.page(&at.text_document.uri, |file, scene| {
        let found = going::highlight(scene, file.text.offset(at.position));
        found.iter().map(|at| DocumentHighlight { range: file.text.range(at.span), kind: None }).collect()
    }))
}

pub(super) fn lifts(server: &mut Server, asked: WorkspaceSymbolParams) -> Answer<WorkspaceSymbolResponse> {
    let mut symbols: Vec<WorkspaceSymbol> = Vec::new();
    for address in server.first_pages() {
        let found = server.page(&address, |file, scene| {
            let symbol = |lift: LiftSymbol| Some(wire::workspace_symbol(file.location(&lift.place)?, lift));
            going::lifts(scene, &asked.query).into_iter().filter_map(symbol).collect::<Vec<_>>()
        });
        symbols.extend(found.unwrap_or_default());
    }
    Ok(Some(symbols.into()))
}

pub(super) fn tokens(server: &mut Server, asked: SemanticTokensParams) -> Answer<SemanticTokens> {
    let address = asked.text_document.uri;
    let Some(data) = server.page(&address, |file, scene| wire::token_data(&file.text, &tokens::tokens(scene))) else {
        return Ok(None);
    };
    let id = server.keep_tokens(&address, data.clone());
    Ok(Some(SemanticTokens { result_id: Some(id), data: wire::token_list(&data) }))
}

pub(super) fn token_changes(
    server: &mut Server,
    asked: SemanticTokensDeltaParams,
) -> Answer<SemanticTokensDeltaResponse> {
    let address = asked.text_document.uri;
    let Some(data) = server.page(&address, |file, scene| wire::token_data(&file.text, &tokens::tokens(scene))) else {
        return Ok(None);
    };
    let before = server.kept_tokens(&address, &asked.previous_result_id);
    let id = Some(server.keep_tokens(&address, data.clone()));
    Ok(Some(match before {
        Some(before) => SemanticTokensDelta { result_id: id, edits: wire::token_edits(&before, &data) }.into(),
        None => SemanticTokens { result_id: id, data: wire::token_list(&data) }.into(),
    }))
}

pub(super) fn lenses(server: &mut Server, asked: CodeLensParams) -> Answer<Vec<CodeLens>> {
    if !server.switches.lens {
        return Ok(None);
    }
    let address = asked.text_document.uri;
    Ok(server.page(&address, |file, scene| {
        let lens = |lens: Lens| {
            let range = file.text.range(lens.span);
            let arguments = vec![json!(address), json!(range.start)];
            let command =
                Command { title: lens.title, command: CARD.into(), arguments: Some(arguments), ..Command::default() };
            CodeLens { range, command: Some(command), data: None }
        };
        lens::lenses(scene).into_iter().map(lens).collect()
    }))
}

/// The card of the session at a place, as Markdown: the arguments are the page's address and a position.
pub(super) fn command(server: &mut Server, asked: ExecuteCommandParams) -> Answer<Value> {
    if asked.command != CARD {
        return Err(Refusal(format!("there is no command `{}`; there is {CARD}", asked.command)));
    }
    let wanted = || Refusal(format!("{CARD} takes a page's address and a position"));
    let mut arguments = asked.arguments.unwrap_or_default().into_iter();
    let address: Uri = serde_json::from_value(arguments.next().unwrap_or_default()).map_err(|_| wanted())?;
    let position: Position = serde_json::from_value(arguments.next().unwrap_or_default()).map_err(|_| wanted())?;
    let card = server.page(&address, |file, scene| card::card(scene, file.text.offset(position)));
    match card.flatten() {
        Some(card) => Ok(Some(Value::String(card))),
        None => Err(Refusal("no session with a line stands here".into())),
    }
}
