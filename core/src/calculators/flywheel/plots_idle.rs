//! The flywheel's curves over half a turn at idle: what pushes it, and what that does to its speed.

use super::turning_moment::Diagram;
use super::{ENGINE_INERTIA, IDLE_SWING, REFERENCE_ENGINE_INERTIA, REFERENCE_UNEVENNESS, UNEVENNESS, idle};
use crate::build::Build;
use crate::calculators::car::IDLE;
use crate::chart::{Axis, Chart, Curve};
use crate::plan::Plan;
use crate::quantity::unit::{DEG, NM, RPM};
use crate::quantity::{Angle, Inertia, Mass, RotationalSpeed, Torque, degrees};
use crate::report::{Report, Unknown};
use crate::spec::Output;
use std::borrow::Cow;

const CRANK: Axis = Axis { label: Cow::Borrowed("crank past top dead centre"), dimension: Angle::DIMENSION, unit: DEG };

/// Pieces drawn of half a turn.
const PIECES: u16 = 96;

fn crank() -> impl Iterator<Item = Angle> {
    (0..=PIECES).map(|at| degrees(180.0 * f64::from(at) / f64::from(PIECES)))
}

fn chart(title: &str, finding: String, y: Axis, curves: Vec<Curve>) -> Chart {
    Chart { title: title.into(), finding, curves, ..Chart::on(CRANK, y) }
}

/// Engine speed over half a turn, with either wheel.
pub(super) fn speed(_plan: &Plan, _build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let (four, idle) = (idle::reported(report)?, report.of(IDLE)?);
    let drawn = |of: Output<Inertia>, label: &str, dashed: bool| -> Result<Curve, Unknown> {
        let inertia = report.of(of)?.si();
        // ½·J·ω² moves by the energy held: exact, however rough.
        let speed = |angle| (idle.si() * idle.si() + 2.0 * four.stored(angle, idle).si() / inertia).max(0.0).sqrt();
        Ok(Curve { label: label.into(), points: crank().map(|angle| (angle.si(), Some(speed(angle)))).collect(), dashed })
    };
    let (chosen, reference) = (report.of(UNEVENNESS)?, report.of(REFERENCE_UNEVENNESS)?);
    Ok(chart(
        "Engine speed within a turn at idle",
        format!("Uneven by {:.1} %; with the reference wheel {:.1} %.", chosen.in_percent(), reference.in_percent()),
        Axis { label: Cow::Borrowed("engine speed"), dimension: RotationalSpeed::DIMENSION, unit: RPM },
        vec![drawn(ENGINE_INERTIA, "chosen", false)?, drawn(REFERENCE_ENGINE_INERTIA, "reference", true)?],
    ))
}

/// Torque above its mean over half a turn: of the gas, of the pistons, and together.
pub(super) fn moment(_plan: &Plan, _build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let (four, speed) = (idle::reported(report)?, report.of(IDLE)?);
    let mut without_pistons = four;
    without_pistons.reciprocating = Mass::ZERO;
    let together: Vec<(Angle, Torque)> = crank().map(|angle| (angle, four.excess(angle, speed))).collect();
    let gas: Vec<(Angle, Torque)> = crank().map(|angle| (angle, without_pistons.excess(angle, speed))).collect();
    let pistons: Vec<(Angle, Torque)> = together.iter().zip(&gas).map(|(all, gas)| (all.0, all.1 - gas.1)).collect();
    let drawn = |label: &str, points: &[(Angle, Torque)], dashed: bool| Curve {
        label: label.into(),
        points: points.iter().map(|point| (point.0.si(), Some(point.1.si()))).collect(),
        dashed,
    };
    Ok(chart(
        "Turning moment at idle",
        format!(
            "{:.0} J swing into the wheel and out; {:.0} J without the pistons' inertia.",
            report.of(IDLE_SWING)?.in_joules(),
            Diagram { points: &gas }.fluctuation().in_joules()
        ),
        Axis { label: Cow::Borrowed("torque above its mean"), dimension: Torque::DIMENSION, unit: NM },
        vec![drawn("together", &together, false), drawn("gas", &gas, true), drawn("pistons", &pistons, true)],
    ))
}
