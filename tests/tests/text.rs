//! The report for people leaves nothing out that matters.

use trialfit_core::build::{Build, Origin};
use trialfit_core::calculators::{ALL, flywheel, front_drive, wiring};
use trialfit_core::plan::Plan;
use trialfit_core::report::{Report, lower_first};
use trialfit_core::share::link::{self, Link};
use trialfit_core::share::text;
use trialfit_core::show::System;
use trialfit_core::spec::{Place, Role, Verdict};

fn links() -> Vec<Link> {
    let mut links = vec![Link::default(), Build::cleared(ALL).into()];
    for text in [
        "1.1/clutch.bearing-load=2500/clutch.slave-bore=19.05/note=heavy-pedal/end",
        "1.1/clutch.clamp-load=3000/clutch.release-by=concentric/clutch.bearing-travel=9.4/end",
        "1.1/car.torque=1.2/car.gears=1.2.3.9/car.gears.9.ratio=gone/end",
        "1.1/front-drive.alternator-pulley=50/front-drive.pulleys=1.2.4/front-drive.pulleys.2.x=130/end",
    ] {
        links.push(link::read(text).expect("a link").link);
    }
    links
}

fn evaluated(link: &Link, system: System) -> (Report, String) {
    let mut report = Report::new(&link.build);
    Plan::default().evaluate(&link.build, &mut report);
    let text = text::report(link, &report, system);
    (report, text)
}

#[test]
fn every_verdict_stands_in_it_and_every_caution_it_calls_for() {
    let mut cautioned = 0;
    for link in links() {
        for system in [System::Metric, System::Imperial] {
            let (report, text) = evaluated(&link, system);
            let layout = link.build.layout();
            for place in layout.places(Role::Output).filter(|place| layout.spec(place.id).is_judged()) {
                let (spec, verdict) = (layout.spec(place.id), report.verdict(&link.build, place));
                let label = if place.row.is_some() { lower_first(spec.label) } else { spec.label.into() };
                let line = text
                    .lines()
                    .find(|line| line.starts_with("- ") && line.contains(&format!("{label}: ")) && line.contains(verdict.word()));
                assert!(line.is_some(), "{label} is {} in\n{text}", verdict.word());
                if verdict != Verdict::Within && !spec.caution.is_empty() {
                    cautioned += 1;
                    assert!(text.contains(&format!("! {}", spec.caution)), "no “{}” in\n{text}", spec.caution);
                }
            }
        }
    }
    assert!(cautioned > 10, "only {cautioned} cautions were called for");
}

#[test]
fn a_figure_reads_otherwise_than_the_limit_it_is_past_and_holds_the_one_it_is_at() {
    let said = |text: &str, system| {
        let link = link::read(text).expect("a link").link;
        evaluated(&link, system).1.replace(['\u{a0}', '\u{202f}'], " ")
    };
    // 1.1992 by hand of 1.2, 287.8 N·m of 288.
    let text = said("1.1/clutch.clamp-load=5640/end", System::Metric);
    assert!(text.contains("Margin over torque: 1.199, beyond (at least 1.2)"), "{text}");
    assert!(text.contains("holds only 287.8 N·m, 288.0 N·m wanted"), "{text}");
    // 6300 min⁻¹ · 140 / 56 is the limit itself.
    let at = "1.1/front-drive.crank-pulley=146/front-drive.alternator-pulley=56/car.redline=6000/front-drive.alternator-limit=15750/end";
    let text = said(at, System::Metric);
    assert!(text.contains("Alternator at highest: 15 750 min⁻¹, within (at most 15 750 min⁻¹)"), "{text}");
    // 50 m/s, exactly 164.04 ft/s.
    let text = said("1.1/end", System::Imperial);
    assert!(text.contains("Belt speed at highest: 176 ft/s, better at most 164 ft/s."), "{text}");
}

#[test]
fn what_can_hurt_whatever_the_figures_say_always_stands_in_it() {
    for link in links() {
        let (_, text) = evaluated(&link, System::Metric);
        for (at, calculator) in ALL.iter().enumerate() {
            let judged = link.build.layout().ids().any(|id| usize::from(id.calculator) == at && link.build.layout().spec(id).is_judged());
            assert_eq!(judged, !calculator.cautions.is_empty(), "{}", calculator.key);
            for caution in calculator.cautions {
                assert_eq!(text.matches(&format!("! {caution}\n")).count(), 1, "“{caution}” in\n{text}");
            }
        }
    }
    assert!(flywheel::FLYWHEEL.cautions.iter().any(|caution| caution.contains("burst test")));
    assert!(wiring::WIRING.cautions.iter().any(|caution| caution.contains("Battery disconnected")));
}

/// The crank's damper: not while the pulley is as usual.
#[test]
fn the_caution_of_an_input_stands_under_it_once_somebody_gave_it() {
    let damper = Build::default().layout().spec(front_drive::CRANK_PULLEY.id).caution;
    assert!(damper.contains("damper"));
    let given = link::read("1.1/front-drive.crank-pulley=120/end").expect("a link").link;
    let (_, text) = evaluated(&given, System::Metric);
    let lines: Vec<&str> = text.lines().collect();
    let at = lines.iter().position(|line| line.starts_with("- Crank pulley: 120")).expect("what was given");
    assert_eq!(lines[at + 1], format!("! {damper}"));
}

#[test]
fn what_was_given_stands_in_it_and_opens_again() {
    for link in links() {
        let (_, text) = evaluated(&link, System::Metric);
        let layout = link.build.layout();
        let not_known = |place: &Place| layout.spec(place.id).of_the_car && link.build.origin(*place) == Origin::Missing;
        let missing = layout.places(Role::Input).filter(not_known).count();
        // Many that nobody knows are counted, not named.
        if missing > 8 {
            assert!(text.contains(&format!("Not known of the car: {missing} values")), "{text}");
        }
        let given = |place: &Place| link.build.origin(*place) != Origin::Usual && !(missing > 8 && not_known(place));
        for place in layout.places(Role::Input).filter(given) {
            let label = layout.spec(place.id).label;
            assert!(text.contains(label) || text.contains(&lower_first(label)), "no “{label}” in\n{text}");
        }
        let address = text.lines().last().expect("a last line");
        assert_eq!(link::read(address).expect("its own link").link, link);
    }
}
