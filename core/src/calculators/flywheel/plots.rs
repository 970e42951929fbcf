//! The flywheel's curves over time: revs, throttle shut, pulling through the gears, a launch. Idle has its own file.

use super::curve::{GEAR_LIMITED, SHIFT_LIMITED, Stretch, TorqueCurve};
use super::shut::EngineDrag;
use super::{
    DROP_TIME, DUMP_TIME, ENGINE_INERTIA, GEAR_FROM, GEAR_GAIN, GEAR_TIME, GEAR_TO, LAG, LAUNCH_LEFT, LAUNCH_SPEED, PLATE_INERTIA, PUMPING,
    REFERENCE_DROP_TIME, REFERENCE_DUMP_TIME, REFERENCE_ENGINE_INERTIA, REFERENCE_GEAR_TIME, REFERENCE_LAUNCH_LEFT, REFERENCE_REV_TIME,
    REV_FROM, REV_TIME, REV_TO, SHIFT_SPEED, SHIFT_TIME, SHIFT_TO, STALL_SPEED, revs,
};
use crate::build::Build;
use crate::calculators::car::engine::under_limiter;
use crate::calculators::car::{
    CURVE_SPEED, DISPLACEMENT, FLYWHEEL_TORQUE, FRICTION_FACTOR, GEARS, HIGHEST_SPEED, IDLE, SPEED_PER_THOUSAND, TORQUE_CURVE,
};
use crate::chart::{Axis, Chart, Curve, Edge};
use crate::order::Order;
use crate::plan::Plan;
use crate::quantity::unit::{KM_PER_H, RPM, S};
use crate::quantity::{Inertia, RotationalSpeed, Time, Velocity, per_minute};
use crate::report::{Report, Unknown};
use crate::spec::Output;
use std::borrow::Cow;

const TIME: Axis = Axis { label: Cow::Borrowed("time"), dimension: Time::DIMENSION, unit: S };
const ENGINE_SPEED: Axis = Axis { label: Cow::Borrowed("engine speed"), dimension: RotationalSpeed::DIMENSION, unit: RPM };

/// Points drawn of each curve: a bend shows, a kilobyte does not.
const POINTS: usize = 48;

fn speeds(from: RotationalSpeed, to: RotationalSpeed) -> impl Iterator<Item = RotationalSpeed> {
    (0..=POINTS).map(move |at| from + (to - from) * (at as f64 / POINTS as f64))
}

/// Engine speed over time out of gear, throttle open.
pub(super) fn free_revs(_plan: &Plan, _build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let rows = report.layout().rows(TORQUE_CURVE).len();
    let torque = TorqueCurve::new((0..rows).map(|row| Ok((report.cell(CURVE_SPEED, row)?, report.cell(FLYWHEEL_TORQUE, row)?))))?;
    let (from, to) = (report.of(REV_FROM)?, report.of(REV_TO)?);
    // The bends of the torque curve themselves are drawn, and enough between them.
    let bends: Vec<Stretch> = torque.between(from, to)?.collect();
    let mut ends: Vec<RotationalSpeed> = speeds(from, to).skip(1).chain(bends.iter().map(|bend| bend.to)).collect();
    ends.order_by(|left, right| left.si().total_cmp(&right.si()));
    let drawn = |of: Output<Inertia>, label: &str, dashed: bool| -> Result<Curve, Unknown> {
        let inertia = report.of(of)?;
        let mut points = vec![(0.0, Some(from.si()))];
        for &end in &ends {
            points.push((revs::rev_time(&torque, inertia, from, end)?.si(), Some(end.si())));
        }
        Ok(Curve { label: label.into(), points, dashed })
    };
    let (time, reference) = (report.of(REV_TIME)?, report.of(REFERENCE_REV_TIME)?);
    Ok(Chart {
        title: "Free revs".into(),
        finding: format!("{:.2} s; the reference wheel takes {:.2} s.", time.in_seconds(), reference.in_seconds()),
        curves: vec![drawn(ENGINE_INERTIA, "chosen", false)?, drawn(REFERENCE_ENGINE_INERTIA, "reference", true)?],
        ..Chart::on(TIME, ENGINE_SPEED)
    })
}

/// Engine speed over time from the shift, throttle shut and clutch down, with the speeds that the gears ask for.
pub(super) fn throttle_shut(_plan: &Plan, _build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let drag = EngineDrag { friction: report.of(FRICTION_FACTOR)?, pumping: report.of(PUMPING)?, displacement: report.of(DISPLACEMENT)? };
    let from = under_limiter(report.of(SHIFT_SPEED), report.of(HIGHEST_SPEED), SHIFT_LIMITED)?;
    let (lowest, lag) = (report.of(IDLE)?, report.of(LAG)?);
    let plate = report.of(PLATE_INERTIA)?;
    let drawn = |of: Output<Inertia>, label: &str, dashed: bool| -> Result<Curve, Unknown> {
        let inertia = report.of(of)? - plate;
        let mut points = vec![(0.0, Some(from.si())), (lag.si(), Some(from.si()))];
        for end in speeds(from, lowest).skip(1) {
            points.push(((lag + drag.fall_time(inertia, from, end)?).si(), Some(end.si())));
        }
        Ok(Curve { label: label.into(), points, dashed })
    };
    let mut curves = vec![drawn(ENGINE_INERTIA, "chosen", false)?, drawn(REFERENCE_ENGINE_INERTIA, "reference", true)?];
    let mut shifts = Vec::new();
    for row in 0..report.layout().rows(GEARS).len() {
        let (Ok(asked), Ok(time)) = (report.cell(SHIFT_TO, row), report.cell(SHIFT_TIME, row)) else { continue };
        let points = vec![(0.0, Some(asked.si())), (time.si(), Some(asked.si()))];
        curves.push(Curve { label: format!("into {}", row + 2), points, dashed: false });
        shifts.push(format!("{} in {:.2} s", row + 2, time.in_seconds()));
    }
    let fall = match (report.of(DROP_TIME), report.of(REFERENCE_DROP_TIME)) {
        (Ok(time), Ok(reference)) => {
            format!("Falls in {:.2} s, with the reference wheel in {:.2} s. ", time.in_seconds(), reference.in_seconds())
        }
        _ => String::new(),
    };
    Ok(Chart {
        title: "Throttle shut".into(),
        finding: if shifts.is_empty() { fall } else { format!("{fall}Shift into {}.", shifts.join(", ")) },
        curves,
        ..Chart::on(TIME, ENGINE_SPEED)
    })
}

/// Road speed over time in every gear, floored over the range given.
pub(super) fn in_gear(plan: &Plan, build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let from = report.of(GEAR_FROM)?;
    let to = under_limiter(report.of(GEAR_TO), report.of(HIGHEST_SPEED), GEAR_LIMITED)?;
    let rows = report.layout().rows(GEARS).len();
    let mut curves: Vec<Curve> = Vec::new();
    for row in 0..rows {
        curves.push(Curve { label: format!("{}", row + 1), points: Vec::new(), dashed: false });
        curves.push(Curve { label: format!("{}, reference", row + 1), points: Vec::new(), dashed: true });
    }
    let (mut trial, mut found) = (build.clone(), report.clone());
    let place = GEAR_TO.id.into();
    for end in speeds(from, to) {
        let begun = end > from;
        if begun && trial.set(place, end.si()).is_ok() {
            plan.evaluate_after(&trial, &mut found, &[place]);
        }
        for row in 0..rows {
            let per_speed = report.cell(SPEED_PER_THOUSAND, row)?.si() / per_minute(1000.0).si();
            for (curve, time) in [(2 * row, GEAR_TIME), (2 * row + 1, REFERENCE_GEAR_TIME)] {
                // A gear that does not pull through the whole range may pull through its beginning.
                let time = if begun { found.cell(time, row).ok().map(Time::si) } else { Some(0.0) };
                if let Some(time) = time {
                    curves[curve].points.push((time, Some(per_speed * end.si())));
                }
            }
        }
    }
    let said = |row: usize| report.cell(GEAR_GAIN, row).ok().map(|gain| format!("{} {:.1} %", row + 1, gain.in_percent()));
    let gains: Vec<String> = (0..rows).filter_map(said).collect();
    Ok(Chart {
        title: "Pulling through the gears".into(),
        finding: if gains.is_empty() {
            "No gear pulls through the range.".into()
        } else {
            format!("Quicker by gear: {}.", gains.join(", "))
        },
        curves,
        ..Chart::on(TIME, Axis { label: Cow::Borrowed("road speed"), dimension: Velocity::DIMENSION, unit: KM_PER_H })
    })
}

/// A dump: engine and gearbox over time until they turn alike.
pub(super) fn launch(_plan: &Plan, _build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let from = report.of(LAUNCH_SPEED)?.si();
    let mut curves = Vec::new();
    for (time, left, names, dashed) in [
        (DUMP_TIME, LAUNCH_LEFT, ["engine", "gearbox"], false),
        (REFERENCE_DUMP_TIME, REFERENCE_LAUNCH_LEFT, ["engine, reference", "gearbox, reference"], true),
    ] {
        let (time, left) = (report.of(time)?.si(), report.of(left)?.si());
        for (name, start) in names.into_iter().zip([from, 0.0]) {
            curves.push(Curve { label: name.into(), points: vec![(0.0, Some(start)), (time, Some(left))], dashed });
        }
    }
    let (chosen, reference) = (report.of(LAUNCH_LEFT)?, report.of(REFERENCE_LAUNCH_LEFT)?);
    Ok(Chart {
        title: "A clutch let in at once".into(),
        finding: format!("{:.0} min⁻¹ left; with the reference wheel {:.0}.", chosen.in_per_minute(), reference.in_per_minute()),
        curves,
        edges: vec![Edge { label: "stalls".into(), at: report.of(STALL_SPEED)?.si(), above: false }],
        ..Chart::on(TIME, ENGINE_SPEED)
    })
}
