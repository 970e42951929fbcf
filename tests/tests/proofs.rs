//! What to prove on the car: the words are common practice, no source; the figures are those of the report.

use std::collections::BTreeSet;
use trialfit_core::build::Build;
use trialfit_core::calculators::{ALL, clutch};
use trialfit_core::proofs::{Due, Stage, proofs};
use trialfit_core::sentence::Piece;
use trialfit_core::share::link;
use trialfit_core::show::{self, System};
use trialfit_core::spec::{Kind, Verdict};
use trialfit_tests::evaluated;

fn opened(text: &str) -> Build {
    let opened = link::read(text).expect("a link");
    assert_eq!(opened.problems, []);
    opened.link.build
}

fn due(build: &Build) -> Vec<Due> {
    proofs(build, &evaluated(build))
}

/// As a voice would read it.
fn words(due: &Due) -> String {
    due.pieces.iter().map(|it| show::piece(it, System::Metric)).collect::<String>().replace('\u{A0}', " ")
}

#[track_caller]
fn of(build: &Build, key: &str) -> Due {
    due(build).into_iter().find(|due| due.key == key).unwrap_or_else(|| panic!("no {key}"))
}

#[test]
fn every_declaration_can_be_shown() {
    let build = Build::default();
    let layout = build.layout();
    for it in ALL {
        let keys: BTreeSet<&str> = it.proofs.iter().map(|proof| proof.key).collect();
        assert_eq!(keys.len(), it.proofs.len(), "{}: a key stands twice", it.key);
        assert!(!it.proofs.is_empty(), "{} proves nothing", it.key);
        for proof in it.proofs {
            assert_eq!(proof.words.matches("{}").count(), proof.figures.len(), "{}", proof.words);
            for &id in proof.figures {
                assert!(matches!(layout.kind(id), Kind::Quantity { .. }) && layout.table_of(id).is_none(), "{}", proof.words);
            }
        }
    }
}

#[test]
fn they_stand_in_the_order_of_the_work() {
    let due = due(&Build::default());
    assert!(due.is_sorted_by_key(|due| (due.stage, due.calculator)));
    assert!(Stage::ALL.iter().all(|stage| due.iter().any(|due| due.stage == *stage)));
    assert_eq!(due.iter().map(|due| &due.key).collect::<BTreeSet<_>>().len(), due.len());
}

#[test]
fn figures_are_those_of_the_report() {
    let build = opened("1.1/clutch.pedal-travel=120mm/clutch.free-play=4mm/end");
    let report = evaluated(&build);
    let at_stop = report.value(clutch::BEARING_AT_STOP.id.into()).expect("known") * 1000.0;
    let stop = of(&build, "clutch.pedal-stop");
    assert!(words(&stop).contains("120 mm at the pad"), "{}", words(&stop));
    let Some(Piece::Figure { value, .. }) = stop.pieces.get(3) else { panic!("{:?}", stop.pieces) };
    assert_eq!(value * 1000.0, at_stop);
    assert_eq!(stop.figures.split(", ").count(), 3, "{}", stop.figures);
    assert_eq!(stop.answer, Some(clutch::BEARING_AT_STOP.id));
    assert_eq!(words(&of(&build, "clutch.free-play")), "Free play at the pad is 4 mm, felt by a fingertip.");
}

#[test]
fn a_tick_holds_for_its_figures_alone() {
    let [before, after] = ["1.1/end", "1.1/front-drive.rib-tension=140N/end"].map(|link| of(&opened(link), "front-drive.tone"));
    assert_ne!(before.figures, after.figures);
    let [before, after] = ["1.1/end", "1.1/front-drive.rib-tension=140N/end"].map(|link| of(&opened(link), "front-drive.belt"));
    assert_eq!(before.figures, after.figures);
}

#[test]
fn what_the_car_has_not_is_not_asked_for() {
    let asked = |link: &str| due(&opened(link)).iter().any(|due| due.key == "clutch.shim");
    assert!(!asked("1.1/end"));
    assert!(asked("1.1/clutch.release-by=concentric/end"));
}

#[test]
fn what_is_not_known_is_asked_for_all_the_same() {
    let unknown = opened("1.1/of-the-car=gone/end");
    let tone = of(&unknown, "front-drive.tone");
    assert!(words(&tone).contains("rings at ? when plucked"), "{}", words(&tone));
    assert_eq!(tone.verdict, Verdict::Unknown);
}

#[test]
fn what_can_hurt_is_said_beside_it_and_what_is_beyond_is_marked() {
    let cautions = |key: &str| of(&Build::default(), key).cautions;
    assert!(cautions("front-drive.tone").iter().any(|caution| caution.contains("Engine off")));
    assert!(cautions("clutch.frees").iter().any(|caution| caution.contains("stands")));
    let heavy = opened("1.1/clutch.slave-bore=19.05mm/clutch.master-bore=22.2mm/end");
    assert_eq!(of(&heavy, "clutch.force").verdict, Verdict::Beyond);
    // An input is what somebody gave: nobody judges it.
    let is_input = |due: &Due| due.answer.is_none();
    for due in proofs(&heavy, &evaluated(&heavy)).iter().filter(|due| is_input(due)) {
        assert_eq!(due.verdict, Verdict::Within, "{}", words(due));
    }
}
