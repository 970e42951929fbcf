//! The clutch's answer in words, and its charts.

use super::bores::{self, Fitness, Pair, Wanted, judge};
use super::cover::{Age, Release, release, spring_cover, spring_fitted};
use super::hydraulics::System;
use super::pedal::system;
use super::{
    BEARING_AT_STOP, BEARING_TRAVEL, BEARING_TRAVEL_MOST, CAPACITY, CAPACITY_WORN, CLAMP_NEW, COVER_FIGURES, CoverFigures,
    EFFORT_COMFORTABLE, EFFORT_LIMIT, GOES_FLUID, GOES_FREE_PLAY, GOES_GAP, GOES_HOSE, GOES_PORT, GOES_RELEASE, LINE_PRESSURE, MARGIN,
    MARGIN_LEAST, MARGIN_WORN, MARGIN_WORN_LEAST, MASTER_BORE, PEDAL_FORCE, PEDAL_FORCE_HOLD, PEDAL_FORCE_WORN, PEDAL_LEFT,
    PEDAL_LEFT_LEAST, PEDAL_LEFT_WORN, PEDAL_TRAVEL, PRESSURE_LIMIT, RELEASE_BY, ReleaseBy, SHIM_FIT, SHIM_THICKEST, SHIM_THINNEST,
    SLAVE_BORE, THRUST, TORQUE_TO_HOLD, TRAVEL_FROM_LIFT, TRAVEL_NEEDED,
};
use crate::build::Build;
use crate::chart::{Axis, Chart, Curve, Edge, Spot};
use crate::plan::Plan;
use crate::quantity::unit::{MM, MPA, N, NM};
use crate::quantity::{Force, Length};
use crate::report::{Report, Unknown, lower_first};
use crate::sentence::{Piece, Sentence};
use crate::spec::{Id, Kind, Verdict};
use std::borrow::Cow;

/// In the order in which they stop the car: the first with the worst verdict leads.
const SPOKEN: [Id; 12] = [
    PEDAL_LEFT.id,
    PEDAL_LEFT_WORN.id,
    MARGIN.id,
    MARGIN_WORN.id,
    PEDAL_FORCE_HOLD.id,
    BEARING_AT_STOP.id,
    PEDAL_FORCE.id,
    PEDAL_FORCE_WORN.id,
    LINE_PRESSURE.id,
    SHIM_FIT.id,
    THRUST.id,
    TRAVEL_FROM_LIFT.id,
];

/// `118 N at the pedal. Frees with 6 mm of pedal left. Holds 312 N·m.`
pub(super) fn sentence(build: &Build, report: &Report) -> Sentence {
    let mut lead = SPOKEN[0];
    let mut verdict = report.verdict(build, lead.into());
    for id in SPOKEN {
        let next = report.verdict(build, id.into());
        if next > verdict {
            (lead, verdict) = (id, next);
        }
    }
    let mut pieces = match verdict {
        Verdict::Beyond => beyond(report, lead).unwrap_or_default(),
        Verdict::Unknown => unknown(build, report, lead),
        Verdict::Near => near(build, report, lead).unwrap_or_default(),
        Verdict::Within => Vec::new(),
    };
    pieces.extend(effort(report, lead, verdict).unwrap_or_default());
    // Three lines on a phone: what leads takes the room of what comes last.
    if verdict != Verdict::Unknown {
        pieces.extend(left(report, lead, verdict).unwrap_or_default());
    }
    if matches!(verdict, Verdict::Within | Verdict::Near) {
        pieces.extend(holds(report).unwrap_or_default());
    }
    if let Some(Piece::Words(last)) = pieces.last_mut() {
        *last = last.trim_end().to_owned().into();
    }
    Sentence { verdict, pieces }
}

type Words = Result<Vec<Piece>, Unknown>;

fn effort(report: &Report, lead: Id, verdict: Verdict) -> Words {
    if [PEDAL_FORCE.id, PEDAL_FORCE_WORN.id, PEDAL_FORCE_HOLD.id].contains(&lead) && verdict == Verdict::Beyond {
        return Ok(Vec::new());
    }
    Ok(vec![Piece::figure(report.of(PEDAL_FORCE)?.si(), N), " at the pedal. ".into()])
}

fn left(report: &Report, lead: Id, verdict: Verdict) -> Words {
    let left = report.of(PEDAL_LEFT)?;
    if left < Length::ZERO || (lead == PEDAL_LEFT.id && verdict != Verdict::Within) {
        return Ok(Vec::new());
    }
    Ok(vec!["Frees with ".into(), short(left), " of pedal left. ".into()])
}

fn holds(report: &Report) -> Words {
    Ok(vec!["Holds ".into(), Piece::figure(report.of(CAPACITY)?.si(), NM), ".".into()])
}

fn short(length: Length) -> Piece {
    Piece::Figure { value: length.si(), unit: MM, digits: 2 }
}

/// Where the pedal's travel is lost, if it is much against what frees the clutch; else the bore.
fn travel_decides(report: &Report) -> Piece {
    let losses = [
        (GOES_FREE_PLAY, "Free play decides. "),
        (GOES_PORT, "Port-closing travel decides. "),
        (GOES_GAP, "Air at the bearing decides. "),
        (GOES_HOSE, "Hose decides. "),
        (GOES_FLUID, "Fluid or air in it decides. "),
    ];
    let mut worst = (report.of(GOES_RELEASE).map_or(Length::ZERO, |release| release / 3.0), None);
    for (loss, words) in losses {
        if let Ok(loss) = report.of(loss)
            && loss > worst.0
        {
            worst = (loss, Some(words));
        }
    }
    worst.1.map_or_else(|| bore_decides(report), Piece::from)
}

/// The input that moves the effort and the travel most.
fn bore_decides(report: &Report) -> Piece {
    match report.of(RELEASE_BY) {
        Ok(ReleaseBy::Concentric) => "Master bore decides. ".into(),
        _ => "Slave bore decides. ".into(),
    }
}

fn beyond(report: &Report, lead: Id) -> Words {
    let heavy = |force: Force, what: &'static str| -> Words {
        let [force, limit] = Piece::apart([force.si(), report.of(EFFORT_LIMIT)?.si()], N, 3);
        Ok(vec![what.into(), force, " at the pedal, ".into(), limit, " at most. ".into(), bore_decides(report)])
    };
    if lead == PEDAL_LEFT.id {
        let (left, least) = (report.of(PEDAL_LEFT)?, report.of(PEDAL_LEFT_LEAST)?);
        if left >= Length::ZERO {
            let [left, least] = Piece::apart([left.si(), least.si()], MM, 2);
            let wanted = " of pedal left, ".into();
            return Ok(vec!["Beyond: frees with only ".into(), left, wanted, least, " wanted. ".into(), travel_decides(report)]);
        }
        let (needed, reached) = (report.of(TRAVEL_NEEDED)?, report.of(BEARING_AT_STOP)?);
        let [reached, needed] = Piece::apart([reached.min(needed).si(), needed.si()], MM, 2);
        Ok(vec!["Beyond: it drags. Bearing moves ".into(), reached, " of ".into(), needed, ". ".into(), travel_decides(report)])
    } else if lead == PEDAL_LEFT_WORN.id {
        let wanting = short(report.of(PEDAL_LEFT_LEAST)? - report.of(PEDAL_LEFT_WORN)?);
        Ok(vec!["Beyond: drags when worn, ".into(), wanting, " short. ".into(), travel_decides(report)])
    } else if lead == MARGIN.id {
        let (held, wanted, least) = (report.of(CAPACITY)?, report.of(TORQUE_TO_HOLD)?, report.of(MARGIN_LEAST)?);
        let what = if held < wanted { "Beyond: it slips at " } else { "Beyond: holds only " };
        let [held, wanted] = Piece::apart([held.si(), (wanted * least.si()).si()], NM, 3);
        Ok(vec![what.into(), held, ", ".into(), wanted, " wanted. Clamp load decides. ".into()])
    } else if lead == MARGIN_WORN.id {
        let (held, wanted) = (report.of(CAPACITY_WORN)?, report.of(TORQUE_TO_HOLD)? * report.of(MARGIN_WORN_LEAST)?.si());
        let [held, wanted] = Piece::apart([held.si(), wanted.si()], NM, 3);
        Ok(vec!["Beyond: worn, it holds only ".into(), held, ", ".into(), wanted, " wanted. Clamp load decides. ".into()])
    } else if lead == PEDAL_FORCE_HOLD.id {
        let force = Piece::figure(report.of(PEDAL_FORCE_HOLD)?.si(), N);
        Ok(vec!["Beyond: the pedal stays down, ".into(), force, " when free. Pedal spring decides. ".into()])
    } else if lead == TRAVEL_FROM_LIFT.id {
        let (taken, most) = (report.of(TRAVEL_FROM_LIFT)?, report.of(BEARING_TRAVEL_MOST)?);
        let [taken, most] = Piece::apart([taken.si(), most.si()], MM, 2);
        Ok(vec!["Beyond: by lift and fingers the bearing needs ".into(), taken, ", ".into(), most, " allowed. ".into()])
    } else if lead == BEARING_AT_STOP.id {
        let (reached, most) = (report.of(BEARING_AT_STOP)?, report.of(BEARING_TRAVEL_MOST)?);
        let needed = report.of(TRAVEL_NEEDED)?;
        if most < needed {
            let [most, needed] = Piece::apart([most.si(), needed.si()], MM, 2);
            return Ok(vec!["Beyond: the cover allows ".into(), most, ", ".into(), needed, " frees it. ".into()]);
        }
        let allowed = " allowed. Set the pedal's stop. ";
        let [reached, most] = Piece::apart([reached.si(), most.si()], MM, 2);
        Ok(vec!["Beyond: it over-travels, ".into(), reached, " of ".into(), most, allowed.into()])
    } else if lead == PEDAL_FORCE.id {
        heavy(report.of(PEDAL_FORCE)?, "Beyond: too heavy. ")
    } else if lead == PEDAL_FORCE_WORN.id {
        heavy(report.of(PEDAL_FORCE_WORN)?, "Beyond: too heavy when worn. ")
    } else if lead == LINE_PRESSURE.id {
        Ok(vec!["Beyond: ".into(), Piece::figure(report.of(LINE_PRESSURE)?.si(), MPA), " in the line. ".into(), bore_decides(report)])
    } else if lead == SHIM_FIT.id {
        let end = if report.of(SHIM_THINNEST)? > report.of(SHIM_THICKEST)? { ". No shim fits. " } else { ". Shim decides. " };
        Ok(vec!["Beyond: the slave ".into(), choice_label(report, SHIM_FIT.id).into(), end.into()])
    } else {
        let load = Piece::figure(report.of(THRUST)?.si(), N);
        Ok(vec!["Beyond: ".into(), load, " on the crank's thrust bearing. Bearing load decides. ".into()])
    }
}

fn choice_label(report: &Report, id: Id) -> &'static str {
    let Kind::Choice(choices) = report.layout().kind(id) else { return "" };
    report.value(id.into()).ok().and_then(|choice| choices.get(choice as usize)).map_or("", |choice| choice.label)
}

fn near(build: &Build, report: &Report, lead: Id) -> Words {
    if report.standing(build, lead.into()).estimate {
        return Ok(vec!["By the spring's dimensions, an estimate: ".into()]);
    }
    Ok(if lead == PEDAL_LEFT.id {
        vec!["Only just: frees with ".into(), short(report.of(PEDAL_LEFT)?), " of pedal left. ".into()]
    } else if lead == PEDAL_LEFT_WORN.id {
        vec!["Only just when worn: ".into(), short(report.of(PEDAL_LEFT_WORN)?), " of pedal left then. ".into()]
    } else if lead == MARGIN_WORN.id {
        vec!["Only just when worn: holds ".into(), Piece::figure(report.of(CAPACITY_WORN)?.si(), NM), " then. ".into()]
    } else if lead == TRAVEL_FROM_LIFT.id {
        let (taken, given) = (report.of(TRAVEL_FROM_LIFT)?, report.of(BEARING_TRAVEL)?);
        vec!["By lift and fingers the bearing needs ".into(), short(taken), ", ".into(), short(given), " given. ".into()]
    } else if lead == PEDAL_FORCE.id {
        vec!["Heavy: ".into()]
    } else if lead == PEDAL_FORCE_WORN.id {
        vec!["Heavy when worn: ".into(), Piece::figure(report.of(PEDAL_FORCE_WORN)?.si(), N), " then. ".into()]
    } else {
        vec!["High: ".into(), Piece::figure(report.of(LINE_PRESSURE)?.si(), MPA), " in the line. ".into()]
    })
}

fn unknown(build: &Build, report: &Report, lead: Id) -> Vec<Piece> {
    let label = report.layout().spec(lead).label;
    let what = match lead {
        id if id == PEDAL_LEFT.id => "pedal load and travel",
        id if id == MARGIN.id => "torque held",
        id if id == SHIM_FIT.id => "the slave's shim",
        _ => label,
    };
    let why = report.undecided(build, lead.into());
    let maker = match why {
        Some(Unknown::NotGiven(id)) if id == super::BEARING_LOAD.id || id == super::CLAMP_LOAD.id => " Ask the cover's maker.",
        _ => "",
    };
    let reason = why.map(|why| why.reason(report.layout())).unwrap_or_default();
    vec![format!("Unknown: {}. {reason}{maker} ", lower_first(what)).into()]
}

const PAD: Axis = Axis { label: Cow::Borrowed("pedal travel"), dimension: Length::DIMENSION, unit: MM };
const EFFORT: Axis = Axis { label: Cow::Borrowed("pedal force"), dimension: Force::DIMENSION, unit: N };

fn effort_edges(report: &Report) -> Result<Vec<Edge>, Unknown> {
    let edge = |label: &str, force: Force| Edge { label: label.into(), at: force.si(), above: true };
    Ok(vec![edge("comfortable to here", report.of(EFFORT_COMFORTABLE)?), edge("too heavy", report.of(EFFORT_LIMIT)?)])
}

/// Pedal force over the whole push, plate new and worn.
pub(super) fn force_through_stroke(_plan: &Plan, _build: &Build, mut report: &Report) -> Result<Chart, Unknown> {
    let (system, new) = (system(&mut report)?, release(&mut report, Age::New)?);
    let curve = |label: &str, release: &Release| Curve {
        label: label.into(),
        points: system.stroke(&release.curve).iter().map(|state| (state.pedal.si(), Some(state.force.si()))).collect(),
        dashed: false,
    };
    let mut curves = vec![curve("plate new", &new)];
    if let Ok(worn) = release(&mut report, Age::Worn) {
        curves.push(curve("plate worn", &worn));
    }
    let push = system.push(&new.curve, new.needed);
    let (top, free) = (push.heaviest, push.release);
    let stop = system.parts().pedal_travel;
    let spot = |label: &str, state: super::hydraulics::State, good: bool| Spot {
        at: (state.pedal.si(), state.force.si()),
        label: label.into(),
        good,
        present: false,
        sets: Vec::new(),
    };
    let frees = free.pedal <= stop;
    Ok(Chart {
        title: "Pedal force through the stroke".into(),
        finding: if frees {
            format!(
                "Peaks at {:.0} N after {:.0} mm, free at {:.0} of {:.0} mm with {:.0} N.",
                top.force.in_newtons(),
                top.pedal.in_millimetres(),
                free.pedal.in_millimetres(),
                stop.in_millimetres(),
                free.force.in_newtons()
            )
        } else {
            format!("It would be free at {:.0} mm; the stop comes at {:.0} mm.", free.pedal.in_millimetres(), stop.in_millimetres())
        },
        curves,
        edges: effort_edges(report)?,
        spots: vec![spot("peak", top, top.force <= report.of(EFFORT_LIMIT)?), spot("free", free, frees)],
        present: Some(stop.si()),
        ..Chart::on(PAD, EFFORT)
    })
}

/// Every usual pair of bores: pedal travel at release across, pedal force up. A tap takes the pair.
pub(super) fn bore_pairs(_plan: &Plan, _build: &Build, mut report: &Report) -> Result<Chart, Unknown> {
    let (fitted, new) = (system(&mut report)?, release(&mut report, Age::New)?);
    let worn = release(&mut report, Age::Worn)?;
    let stop = report.of(PEDAL_TRAVEL)? - report.of(PEDAL_LEFT_LEAST)?;
    let wanted = Wanted {
        travel: new.needed,
        most_travel: report.of(BEARING_TRAVEL_MOST)?,
        effort: report.of(EFFORT_LIMIT)?,
        pressure: report.of(PRESSURE_LIMIT)?,
    };
    let both = |system: &System| -> (Fitness, bool) {
        let fitness = judge(system, &new.curve, wanted);
        let later = judge(system, &worn.curve, Wanted { travel: worn.needed, ..wanted });
        let in_hand = fitness.pedal_at_release <= stop && later.pedal_at_release <= stop;
        // Worn, the bearing starts from fingers that stand further back: over-travel is judged new.
        (fitness, in_hand && fitness.passes() && later.releases && later.light_enough && later.soft_enough)
    };
    let fork = report.of(RELEASE_BY)? == ReleaseBy::Fork;
    let found: Vec<Pair> = if fork { bores::pairs(&fitted).collect() } else { bores::masters(&fitted).collect() };
    let mut spots = Vec::with_capacity(found.len() + 1);
    let mut best: Option<(Force, String)> = None;
    let mut passing = 0;
    for pair in &found {
        let system = pair.system.map_err(Unknown::NoSolution)?;
        let (fitness, good) = both(&system);
        let label = match pair.slave {
            Some(slave) => format!("master {}, slave {} in", pair.master.name, slave.name),
            None => format!("master {} in", pair.master.name),
        };
        if good {
            passing += 1;
            if best.as_ref().is_none_or(|(least, _)| fitness.effort < *least) {
                best = Some((fitness.effort, label.clone()));
            }
        }
        let mut sets = vec![(MASTER_BORE.id.into(), pair.master.diameter().si())];
        sets.extend(pair.slave.map(|slave| (SLAVE_BORE.id.into(), slave.diameter().si())));
        let present = system.parts().master == fitted.parts().master && system.parts().slave == fitted.parts().slave;
        spots.push(Spot { at: (fitness.pedal_at_release.si(), fitness.effort.si()), label, good, present, sets });
    }
    if !spots.iter().any(|spot| spot.present) {
        let (fitness, good) = both(&fitted);
        let at = (fitness.pedal_at_release.si(), fitness.effort.si());
        spots.push(Spot { at, label: "as it is, not a usual pair".into(), good, present: true, sets: Vec::new() });
    }
    Ok(Chart {
        title: "Usual bores: effort against travel".into(),
        finding: match best {
            Some((effort, label)) => format!("{passing} of {} pass. Lightest: {label}, {:.0} N.", found.len(), effort.in_newtons()),
            None => "None of the usual bores passes. Look at pedal ratio, fork ratio and bearing load.".into(),
        },
        curves: Vec::new(),
        edges: effort_edges(report)?,
        spots,
        bands: vec![(0.0, stop.si())],
        ..Chart::on(Axis { label: Cow::Borrowed("pedal travel at release"), ..PAD }, EFFORT)
    })
}

/// Clamp load over the spring's deflection, with where it stands new and worn.
pub(super) fn spring_load(_plan: &Plan, _build: &Build, mut report: &Report) -> Result<Chart, Unknown> {
    if report.of(COVER_FIGURES)? == CoverFigures::Measured {
        return Err(Unknown::NoSolution("The cover's loads are given; the spring's dimensions are not used."));
    }
    let cover = spring_cover(&mut report)?;
    let (new, worn) = (spring_fitted(&mut report, Age::New)?, spring_fitted(&mut report, Age::Worn)?);
    let end = (cover.spring().ring().cone * 1.8).max(new * 1.2);
    let points = (0..=60).map(|at| end * (f64::from(at) / 60.0)).map(|s| (s.si(), Some(cover.clamp(s).si()))).collect();
    let spot = |label: &str, s: Length| Spot {
        at: (s.si(), cover.clamp(s).si()),
        label: label.into(),
        good: cover.clamp(s) > Force::ZERO,
        present: false,
        sets: Vec::new(),
    };
    Ok(Chart {
        title: "Clamp load over the spring's deflection".into(),
        finding: format!("{:.0} N new, {:.0} N worn.", report.of(CLAMP_NEW)?.in_newtons(), cover.clamp(worn).in_newtons()),
        curves: vec![Curve { label: "clamp load".into(), points, dashed: false }],
        spots: vec![spot("plate new", new), spot("plate worn", worn)],
        present: Some(new.si()),
        ..Chart::on(Axis { label: Cow::Borrowed("deflection of the spring"), ..PAD }, Axis { label: Cow::Borrowed("clamp load"), ..EFFORT })
    })
}
