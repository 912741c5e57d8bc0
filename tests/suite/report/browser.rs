//! The page in a browser: it loads without a word of complaint, fits a phone and a wide screen, and no label covers
//! another.

use super::{HOSTILE, hostile, reports};
use crate::support::browser::Browser;
use crate::support::journal::{Journal, example};
use crate::support::run;
use std::fs;

/// What is wider than the page, leaves its plot, or covers its neighbour. Tables may be wider where they can be moved
/// sideways.
const MISFITS: &str = "
    const wide = innerWidth;
    const misfits = [];
    if (document.documentElement.scrollWidth > wide) misfits.push('the page is ' + document.documentElement.scrollWidth);
    for (const element of document.querySelectorAll('body *')) {
        const box = element.getBoundingClientRect();
        const moved = element.closest('.scroll') && !element.matches('.scroll');
        const unseen = element.closest('.skip, .unseen') || box.width === 0;
        if (!moved && !unseen && (box.right > wide + 1 || box.left < -1))
            misfits.push(element.tagName + '.' + element.className + ' ' + box.left + ' to ' + box.right);
    }
    for (const svg of document.querySelectorAll('svg')) {
        const plot = svg.getBoundingClientRect();
        const labels = [...svg.querySelectorAll('text')].map(text => [text.textContent, text.getBoundingClientRect()]);
        labels.forEach(([name, one], at) => {
            if (one.left < plot.left - 1 || one.right > plot.right + 1 || one.top < plot.top - 1 || one.bottom > plot.bottom + 1)
                misfits.push(name + ' leaves ' + svg.querySelector('title').textContent);
            for (const [other, two] of labels.slice(at + 1))
                if (one.left < two.right && two.left < one.right && one.top + 3 < two.bottom && two.top + 3 < one.bottom)
                    misfits.push(name + ' covers ' + other + ' in ' + svg.querySelector('title').textContent);
        });
    }
    found(wide + ' px: ' + misfits.slice(0, 20).join('; '));
";

#[test]
fn it_fits_a_phone_and_a_wide_screen() {
    let Some(browser) = Browser::find() else { return };
    let reports = reports();
    let pages = reports.iter().map(|(_, report)| report.split("--- stderr").next().unwrap());
    for ((name, _), found) in reports.iter().zip(browser.found_in(pages, [360, 1280], false, MISFITS)) {
        assert_eq!(found, ["360 px: ", "1280 px: "], "{name}");
    }
}

/// On a phone now and then stand side by side, whole, with the lift and its verdict above them.
#[test]
fn a_week_is_compared_on_a_phone_without_moving_it_sideways() {
    let Some(browser) = Browser::find() else { return };
    let script = "
        const box = document.querySelector('.scroll.paired');
        const cells = [...box.querySelector('tbody tr').children].map(cell => cell.getBoundingClientRect());
        const [lift, verdict, now, then] = cells;
        const paired = then && now.top === then.top && now.top >= Math.max(lift.bottom, verdict.bottom);
        found(innerWidth + ' px: ' + (box.scrollWidth > box.clientWidth) + ' ' + (then ? paired : 'nothing then'));
    ";
    let (paired, alone) =
        (["360 px: false true", "1280 px: false false"], ["360 px: false nothing then", "1280 px: false nothing then"]);
    // Where no lift has a partner then, that column is left out.
    for (report, expected) in [(run::run(&example(), 80, &["report"]), paired), (hostile().run(&["report"]), alone)] {
        let report = report.split("--- stderr").next().unwrap();
        assert_eq!(browser.found(report, [360, 1280], false, script), expected);
    }
}

/// As wide as a sheet of A4 between its margins of 16 mm, at 96 pixels an inch (CSS Values 4, section 6.2).
const SHEET: u32 = 672;

/// What of what is folded away is printed, and what reaches beyond the sheet.
const HIDDEN: &str = "
    const printed = [...document.querySelectorAll('details, .lines')].filter(folded => folded.getBoundingClientRect().height > 0);
    const beyond = [...document.querySelectorAll('main *')].filter(element => element.getBoundingClientRect().right > innerWidth + 1);
    const said = element => element.tagName + ' ' + element.textContent.slice(0, 40);
    found(innerWidth + ' px: ' + [...printed, ...beyond].slice(0, 20).map(said).join('; '));
";

#[test]
fn paper_leaves_out_what_is_folded_away_and_holds_the_rest() {
    let Some(browser) = Browser::find() else { return };
    // The rules for paper as if they held for every screen.
    let printed = reports().into_iter().map(|(name, report)| {
        let report = report.split("--- stderr").next().unwrap();
        let printed = report.replacen("@media print", "@media all", 1);
        assert_ne!(printed, report);
        (name, printed)
    });
    let printed: Vec<_> = printed.collect();
    let found = browser.found_in(printed.iter().map(|(_, page)| page.as_str()), [SHEET], false, HIDDEN);
    for ((name, _), found) in printed.iter().zip(found) {
        assert_eq!(found, [format!("{SHEET} px: ")], "{name}");
    }
}

/// What the Tab key stops at; a reader with a keyboard goes through all of them.
#[test]
fn the_tab_key_stops_at_forty_places_at_most() {
    let Some(browser) = Browser::find() else { return };
    let script = "
        const stops = [...document.querySelectorAll('a[href], summary, [tabindex=\"0\"]')];
        const reached = stops.filter(stop => stop.tabIndex >= 0 && stop.checkVisibility());
        found(innerWidth + ' px: ' + (reached.length <= 40 ? 'few' : reached.length));
    ";
    let report = run::run(&example(), 80, &["report"]);
    assert_eq!(browser.found(report.split("--- stderr").next().unwrap(), [360], false, script), ["360 px: few"]);
}

#[test]
fn it_loads_without_a_complaint_and_says_its_verdicts() {
    let Some(browser) = Browser::find() else { return };
    let folder = tempfile::tempdir().unwrap();
    let page = folder.path().join("report.html");
    fs::write(&page, run::run(&example(), 80, &["report"])).unwrap();
    let (elements, console) = browser.elements(&page, 1280);
    assert_eq!(console, Vec::<String>::new());
    let verdicts = run::run(&example(), 80, &["match"]).lines().next().unwrap().to_owned();
    for said in [
        "<h1>Anselm: block 9</h1>",
        &verdicts,
        "planned sets as planned or better",
        "11 weeks without a deload",
        "Tidewater Classic",
    ] {
        assert!(elements.contains(said), "{said}");
    }
}

/// Text of a journal stays text: the browser makes no element of it, and none of its scripts runs.
#[test]
fn what_a_journal_says_stays_text_in_a_browser() {
    let Some(browser) = Browser::find() else { return };
    let report = hostile().run(&["report"]);
    let report = report.split("--- stderr").next().unwrap();
    let script = "found([...document.querySelectorAll('script, img, b, u, i')].length + ' ' \
                  + document.querySelectorAll('h1').length + ' ' \
                  + document.querySelector('#lines').parentElement.textContent.includes(atob('HOSTILE')))";
    let encoded = base64(HOSTILE);
    // The one script is the test's own.
    assert_eq!(browser.found(report, [1280], false, &script.replace("HOSTILE", &encoded)), ["1 1 true"]);
}

/// As RFC 4648, section 4 has it, so that the text itself stands in no script.
fn base64(text: &str) -> String {
    const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = String::new();
    for part in text.as_bytes().chunks(3) {
        let bits = part.iter().fold(0u32, |bits, byte| bits << 8 | u32::from(*byte)) << (8 * (3 - part.len()));
        for at in 0..4 {
            out.push(if at <= part.len() { char::from(DIGITS[(bits >> (18 - 6 * at)) as usize & 63]) } else { '=' });
        }
    }
    out
}

/// The colours are those whose contrast is tested.
#[test]
fn the_dark_scheme_holds_where_it_is_asked_for() {
    let Some(browser) = Browser::find() else { return };
    let report = Journal::new().run(&["report"]);
    let ground = "found(getComputedStyle(document.body).backgroundColor)";
    assert_eq!(browser.found(&report, [600], false, ground), ["rgb(251, 249, 245)"]);
    assert_eq!(browser.found(&report, [600], true, ground), ["rgb(21, 24, 27)"]);
}

/// A phone of 360 by 740: eight screens of it at most, and on the first what the week was, what to look at, what is next.
#[test]
fn a_phone_shows_the_answers_first_and_the_whole_in_eight_screens() {
    let Some(browser) = Browser::find() else { return };
    let script = "
        const screens = document.documentElement.scrollHeight / 740;
        const first = [...document.querySelectorAll('.glance div')].filter(line => line.getBoundingClientRect().bottom <= 740);
        const said = first.slice(0, 4).map(line => line.querySelector('dt').textContent).join(', ');
        found((screens <= 8 ? 'at most 8' : screens) + ': ' + said);
    ";
    for lifter in ["anselm", "nerys"] {
        let report = run::run(&example(), 80, &["report", "--lifter", lifter]);
        let [found] = browser.found(report.split("--- stderr").next().unwrap(), [360], false, script);
        assert!(found.starts_with("at most 8: This week against last block, "), "{lifter}: {found}");
        assert!(found.contains("Look at, Next session"), "{lifter}: {found}");
    }
}

#[test]
fn a_lifter_is_printed_on_four_sheets_and_a_roster_on_one() {
    let Some(browser) = Browser::find() else { return };
    let folder = tempfile::tempdir().unwrap();
    for (arguments, most) in [(&["report"][..], 4), (&["report", "--lifter", "nerys"], 4), (&["report", "--roster"], 1)]
    {
        let page = folder.path().join("report.html");
        fs::write(&page, run::run(&example(), 80, arguments).split("--- stderr").next().unwrap()).unwrap();
        let sheets = browser.sheets(&page);
        assert!((1..=most).contains(&sheets), "{arguments:?}: {sheets} sheets");
    }
}

/// What the signs of a picture mean is printed with it, and their colours too.
#[test]
fn legends_are_printed() {
    let Some(browser) = Browser::find() else { return };
    let report = run::run(&example(), 80, &["report"]);
    let report = report.split("--- stderr").next().unwrap();
    let printed = report.replacen("@media print", "@media all", 1);
    let script = "
        const shown = [...document.querySelectorAll('section > .soft .swatch, .plot .swatch')].filter(swatch => swatch.checkVisibility());
        const kept = shown.every(swatch => getComputedStyle(swatch).printColorAdjust === 'exact');
        found((shown.length >= 4) + ' ' + kept);
    ";
    assert_eq!(browser.found(&printed, [SHEET], false, script), ["true true"]);
}

#[test]
fn a_roster_is_a_card_a_lifter_on_a_phone_and_a_table_on_a_wide_screen() {
    let Some(browser) = Browser::find() else { return };
    let report = run::run(&example(), 80, &["report", "--roster"]);
    let script = "
        const [name, week] = document.querySelector('.carded tbody tr').children;
        const below = week.getBoundingClientRect().top >= name.getBoundingClientRect().bottom;
        found(innerWidth + ' px: ' + (below ? 'a card' : 'a row'));
    ";
    let found = browser.found(report.split("--- stderr").next().unwrap(), [360, 1280], false, script);
    assert_eq!(found, ["360 px: a card", "1280 px: a row"]);
}
