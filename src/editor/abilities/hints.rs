//! Hints behind lines: how a line compares, what goes on the bar, what a load comes to. One a line at most.

use crate::editor::scene::Scene;
use crate::editor::values::{Hint, HintKind};
use crate::notation::Reader;
use crate::notation::nodes::{Body, Group as Written, LineKind};
use crate::present::view::beside;
use crate::present::wording;
use crate::questions::r#match::{self, Verdict};
use crate::questions::session;
use crate::source::Span;
use crate::training::{BlockId, Load, Session};
use std::collections::BTreeMap;

/// The hints of a place's lines, of the kinds that are wanted.
pub(crate) fn hints(scene: &Scene<'_>, place: Span, wanted: &dyn Fn(HintKind) -> bool) -> Vec<Hint> {
    let (first, last) = (scene.line_of(place.start as usize), scene.line_of(place.end as usize));
    let lines = |line: u32| (first..=last).contains(&line);
    let mut texts: BTreeMap<u32, String> = BTreeMap::new();
    let sessions = scene
        .log()
        .sessions
        .iter()
        .filter(|session| session.works.iter().any(|work| work.page == scene.id && lines(work.line)));
    let sessions: Vec<&Session> = sessions.collect();
    if wanted(HintKind::Next) {
        sessions.iter().for_each(|session| next(scene, session, &mut texts));
    }
    if wanted(HintKind::Verdict) {
        verdicts(scene, &sessions, &mut texts);
    }
    texts.retain(|line, _| lines(*line));
    let mut hints = Vec::new();
    for (number, line) in (1..).zip(Reader::new(&scene.page)).take_while(|(number, _)| *number <= last) {
        if number < first {
            continue;
        }
        let span = Span::of(scene.page.text(), line.text);
        let end = span.start + line.text.trim_end().len() as u32;
        match texts.remove(&number) {
            Some(text) => hints.push(Hint { at: end, text }),
            None if wanted(HintKind::Mass) => hints.extend(masses(scene, &line.kind, number)),
            None => {}
        }
    }
    hints
}

/// Behind a line that is to be done, its next set.
fn next(scene: &Scene<'_>, now: &Session, texts: &mut BTreeMap<u32, String>) {
    if now.date < scene.today {
        return;
    }
    let ask = session::Ask { date: Some(now.date), ..session::Ask::default() };
    let Ok(answer) = session::next_sets(&scene.history(), &ask) else { return };
    for lift in answer.lifts.iter().filter(|lift| *lift.place.page == *scene.page.path()) {
        texts.extend(beside::next(lift).map(|text| (lift.place.line, text)));
    }
}

/// Behind each line of work what `match` says of it: of each week once, as it stood at its end.
fn verdicts(scene: &Scene<'_>, sessions: &[&Session], texts: &mut BTreeMap<u32, String>) {
    let mut weeks: Vec<(BlockId, u32)> =
        sessions.iter().filter_map(|session| session.block.zip(session.week)).collect();
    weeks.sort_unstable();
    weeks.dedup();
    let ask = |(block, week)| r#match::Ask { block: Some(block), week: Some(week), ..r#match::Ask::default() };
    for answer in r#match::answers(&scene.history(), weeks.into_iter().map(ask)) {
        for pair in answer.pairs.iter().filter(|pair| !matches!(pair.verdict, Verdict::New | Verdict::Unknown)) {
            let Some(now) = pair.now.as_ref().filter(|now| *now.place.page == *scene.page.path()) else { continue };
            texts.entry(now.place.line).or_insert_with(|| beside::verdict(pair));
        }
    }
}

/// Behind a load that is no plain mass, its kilograms.
fn masses(scene: &Scene<'_>, kind: &LineKind<'_>, line: u32) -> Option<Hint> {
    let written: &[Written<'_>] = match kind {
        LineKind::Work(work) => match &work.body {
            Body::Groups(groups) => groups,
            _ => return None,
        },
        LineKind::SetLine(groups) => groups,
        _ => return None,
    };
    let session = scene.session_at(line)?;
    let groups = session.works.iter().flat_map(|work| &work.groups);
    let groups = groups.filter(|group| group.page == scene.id && group.line == line);
    groups.zip(written).find_map(|(group, written)| {
        let load = written.load.as_ref()?;
        // A percentage is a plain mass once it is worked out.
        let is_plain = matches!(group.load, Load::Plain { .. }) && !load.text.contains('%');
        let mass = group.load.kilograms(session.own_mass()).filter(|_| !is_plain)?;
        let at = Span::of(scene.page.text(), load.text).end;
        Some(Hint { at, text: format!("= {}", wording::brief_mass(mass, scene.lifter.units)) })
    })
}
