//! The car's answer in words, its torque and power curves, and its speeds in the gears.

use super::{
    CRUISE_ENGINE_SPEED, CURVE_SPEED, FLYWHEEL_TORQUE, GEAR_RATIO, GEARS, IDLE, MOTORWAY_SPEED, PEAK_POWER, PEAK_POWER_SPEED, PEAK_TORQUE,
    PEAK_TORQUE_SPEED, REDLINE, SPEED_AT_REDLINE, TORQUE_CURVE,
};
use crate::build::Build;
use crate::chart::{Axis, Chart, Curve};
use crate::order::Order;
use crate::plan::Plan;
use crate::quantity::unit::{KM_PER_H, KW, NM, RPM};
use crate::quantity::{RotationalSpeed, Torque, Velocity};
use crate::report::{Report, Unknown};
use crate::sentence::{Piece, Sentence};
use crate::spec::Verdict;
use std::borrow::Cow;

/// `240 N·m at 4000 min⁻¹, 135 kW at 6000. Motorway: 110 km/h at 3220 min⁻¹.`
pub(super) fn sentence(_build: &Build, report: &Report) -> Sentence {
    let strength = || -> Result<Vec<Piece>, Unknown> {
        Ok(vec![
            Piece::figure(report.of(PEAK_TORQUE)?.si(), NM),
            " at ".into(),
            Piece::figure(report.of(PEAK_TORQUE_SPEED)?.si(), RPM),
            ", ".into(),
            Piece::figure(report.of(PEAK_POWER)?.si(), KW),
            " at ".into(),
            Piece::figure(report.of(PEAK_POWER_SPEED)?.si(), RPM),
            ". ".into(),
        ])
    };
    let motorway = || -> Result<Vec<Piece>, Unknown> {
        Ok(vec![
            Piece::figure(report.of(MOTORWAY_SPEED)?.si(), KM_PER_H),
            " is ".into(),
            Piece::figure(report.of(CRUISE_ENGINE_SPEED)?.si(), RPM),
            " in top.".into(),
        ])
    };
    let (mut verdict, mut pieces) = (Verdict::Within, Vec::new());
    for part in [strength(), motorway()] {
        match part {
            Ok(said) => pieces.extend(said),
            // One missing number at a time.
            Err(Unknown::NotGiven(_)) if verdict == Verdict::Unknown => {}
            Err(why) => {
                verdict = Verdict::Unknown;
                pieces.push(format!("Unknown: {} ", crate::report::lower_first(&why.reason(report.layout()))).into());
            }
        }
    }
    Sentence { verdict, pieces }
}

const ENGINE_SPEED: Axis = Axis { label: Cow::Borrowed("engine speed"), dimension: RotationalSpeed::DIMENSION, unit: RPM };

/// Torque at the flywheel over engine speed, and the power it makes.
pub(super) fn torque_and_power(_plan: &Plan, build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let rows = build.rows(TORQUE_CURVE).len();
    let mut torque = Vec::with_capacity(rows);
    for row in 0..rows {
        torque.push((report.cell(CURVE_SPEED, row)?.si(), report.cell(FLYWHEEL_TORQUE, row).ok().map(Torque::si)));
    }
    torque.order_by(|left, right| left.0.total_cmp(&right.0));
    Ok(Chart {
        title: "Torque at the flywheel".into(),
        finding: report.of(PEAK_POWER).map_or_else(|_| String::new(), |peak| format!("Power peaks at {:.0} kW.", peak.in_kilowatts())),
        curves: vec![Curve { label: "torque".into(), points: torque, dashed: false }],
        present: report.of(REDLINE).ok().map(RotationalSpeed::si),
        ..Chart::on(ENGINE_SPEED, Axis { label: Cow::Borrowed("torque"), dimension: Torque::DIMENSION, unit: NM })
    })
}

/// Road speed over engine speed in every gear, from idle to redline.
pub(super) fn gear_speeds(_plan: &Plan, build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let (idle, redline) = (report.of(IDLE)?.si(), report.of(REDLINE)?.si());
    let mut curves = Vec::new();
    for row in 0..build.rows(GEARS).len() {
        let top = report.cell(SPEED_AT_REDLINE, row)?.si();
        report.cell(GEAR_RATIO, row)?;
        curves.push(Curve {
            label: format!("{}", row + 1),
            points: vec![(idle, Some(top * idle / redline)), (redline, Some(top))],
            dashed: false,
        });
    }
    Ok(Chart {
        title: "Road speed in the gears".into(),
        finding: format!("{} gears, first to top.", curves.len()),
        curves,
        present: report.of(CRUISE_ENGINE_SPEED).ok().map(RotationalSpeed::si),
        ..Chart::on(ENGINE_SPEED, Axis { label: Cow::Borrowed("road speed"), dimension: Velocity::DIMENSION, unit: KM_PER_H })
    })
}
