//! Room and joint angles over the engine's height.

use super::{
    BAND, FRONT_JOINT, HEIGHT, HIGHEST_ABOVE, HIGHEST_BEHIND, JOINT_MOST, LEAST, LEAST_UNDER, LEAST_UNDER_WORST, LEAST_WORST,
    LOWEST_BEHIND, LOWEST_BELOW, REAR_JOINT, RESIDUAL, ROOM_LEAST, WORST_LEAST,
};
use crate::build::Build;
use crate::chart::{Axis, Chart, Curve, Edge};
use crate::plan::Plan;
use crate::quantity::unit::{DEG, MM};
use crate::quantity::{Angle, Length, Value, millimetres};
use crate::report::{Report, Unknown};
use crate::spec::Output;
use std::borrow::Cow;

/// To either side of where the engine stands.
const REACH: Length = millimetres(40.0);
const STEPS: i32 = 20;

const ENGINE_HEIGHT: Axis = Axis { label: Cow::Borrowed("height of the engine"), dimension: Length::DIMENSION, unit: MM };

/// Outputs at heights about the present one.
fn curves<V: Value, const N: usize>(
    plan: &Plan,
    build: &Build,
    report: &Report,
    outputs: [(Output<V>, &str); N],
) -> Result<Vec<Curve>, Unknown> {
    let present = report.of(HEIGHT)?;
    let (mut build, mut report) = (build.clone(), report.clone());
    let mut curves: Vec<Curve> =
        outputs.iter().map(|(_, label)| Curve { label: (*label).into(), points: Vec::new(), dashed: false }).collect();
    for step in -STEPS..=STEPS {
        let height = present + REACH * (f64::from(step) / f64::from(STEPS));
        if build.set(HEIGHT.id.into(), height.si()).is_err() {
            continue;
        }
        plan.evaluate_after(&build, &mut report, &[HEIGHT.id.into()]);
        for (curve, (output, _)) in curves.iter_mut().zip(&outputs) {
            curve.points.push((height.si(), report.of(*output).ok().map(Value::to_cell)));
        }
    }
    Ok(curves)
}

/// The least room above and below against the engine's height, standing and at worst.
pub(super) fn room(plan: &Plan, build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let outputs = [(LEAST, "above"), (LEAST_WORST, "above, at worst"), (LEAST_UNDER, "below"), (LEAST_UNDER_WORST, "below, at worst")];
    let edge = |label: &str, at: Length| Edge { label: label.into(), at: at.si(), above: false };
    Ok(Chart {
        title: "Room above and below over the engine's height".into(),
        finding: finding(report),
        curves: curves(plan, build, report, outputs)?,
        edges: vec![edge("least standing", report.of(ROOM_LEAST)?), edge("least at worst", report.of(WORST_LEAST)?)],
        present: Some(report.of(HEIGHT)?.si()),
        bands: band(report).into_iter().collect(),
        ..Chart::on(ENGINE_HEIGHT, Axis { label: Cow::Borrowed("least room"), dimension: Length::DIMENSION, unit: MM })
    })
}

/// The joints' bends against the engine's height.
pub(super) fn joints(plan: &Plan, build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let outputs = [(FRONT_JOINT, "front joint"), (REAR_JOINT, "rear joint"), (RESIDUAL, "both together")];
    let behind = report.of(LOWEST_BEHIND).ok().zip(report.of(HIGHEST_BEHIND).ok());
    Ok(Chart {
        title: "Joint angles over the engine's height".into(),
        finding: match behind {
            Some((lowest, highest)) => {
                format!("The joints suit from {:.0} to {:.0} mm.", lowest.in_millimetres(), highest.in_millimetres())
            }
            None => "No height suits the joints as they are.".into(),
        },
        curves: curves(plan, build, report, outputs)?,
        edges: vec![Edge { label: "each at most".into(), at: report.of(JOINT_MOST)?.si(), above: true }],
        present: Some(report.of(HEIGHT)?.si()),
        bands: behind.map(|(lowest, highest)| (lowest.si(), highest.si())).into_iter().collect(),
        ..Chart::on(ENGINE_HEIGHT, Axis { label: Cow::Borrowed("angle"), dimension: Angle::DIMENSION, unit: DEG })
    })
}

/// Heights that pass no limit above, below or behind.
fn band(report: &Report) -> Option<(f64, f64)> {
    report.of(BAND).ok().filter(|band| *band >= Length::ZERO)?;
    let lowest = report.of(LOWEST_BELOW).ok()?.max(report.of(LOWEST_BEHIND).ok()?);
    let highest = report.of(HIGHEST_ABOVE).ok()?.min(report.of(HIGHEST_BEHIND).ok()?);
    Some((lowest.si(), highest.si()))
}

fn finding(report: &Report) -> String {
    let millimetres = |output: Output<Length>| report.of(output).map(Length::in_millimetres);
    let (Ok(above), Ok(below)) = (millimetres(HIGHEST_ABOVE), millimetres(LOWEST_BELOW)) else {
        return "Which heights suit is not known.".into();
    };
    match band(report) {
        Some((lowest, highest)) => format!("Heights from {:.0} to {:.0} mm suit above, below and behind.", lowest * 1e3, highest * 1e3),
        None => match (millimetres(LOWEST_BEHIND), millimetres(HIGHEST_BEHIND)) {
            (Ok(low), Ok(high)) => format!(
                "No height suits: above asks for at most {above:.0} mm, below for at least {below:.0}, the joints for {low:.0} to {high:.0}."
            ),
            _ => format!("No height suits the joints; above asks for at most {above:.0} mm, below for at least {below:.0}."),
        },
    }
}
