//! Alternator speed over its pulley, and the onset of cavitation over the warm-up.

use crate::build::Build;
use crate::calculators::car::{HIGHEST_SPEED, IDLE};
use crate::calculators::front_drive::declared::{
    ALTERNATOR_LIMIT, ALTERNATOR_PULLEY, BELT_LINE, DUTY, Duty, FILL_TEMPERATURE, IDLE_WANTED, INLET_TEMPERATURE, LEAST_ALTERNATOR_PULLEY,
    LINE_DIFFERENCE, MOST_ALTERNATOR_PULLEY, ONSET, ONSET_REFERENCE, ONSET_WARM_UP, PULLEYS, SLIP, WARM_UP_WORST,
};
use crate::calculators::front_drive::speeds;
use crate::chart::{Axis, Chart, Curve, Edge};
use crate::plan::Plan;
use crate::quantity::unit::{CELSIUS, MM, RPM};
use crate::quantity::{Length, RotationalSpeed, Temperature, celsius, millimetres};
use crate::report::{Report, Unknown};
use crate::spec::Place;
use std::borrow::Cow;

/// Alternator speed at idle and at most over the diameter of its pulley, with the band that suits both limits.
pub(in super::super) fn alternator_band(_plan: &Plan, build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let crank = (0..build.rows(PULLEYS).len()).find(|&row| report.cell(DUTY, row) == Ok(Duty::Crank));
    let crank = report.cell(BELT_LINE, crank.ok_or(Unknown::NoSolution("No pulley in the list is the crank's."))?)?;
    let (difference, slip) = (report.of(LINE_DIFFERENCE)?, report.of(SLIP)?.si());
    let (idle, high) = (report.of(IDLE)?, report.of(HIGHEST_SPEED)?);
    let (limit, wanted) = (report.of(ALTERNATOR_LIMIT)?, report.of(IDLE_WANTED)?);
    let (least, most) = (report.of(LEAST_ALTERNATOR_PULLEY)?, report.of(MOST_ALTERNATOR_PULLEY)?);
    let [from, to] = build.layout().spec(ALTERNATOR_PULLEY.id).usual;
    let curve = |label: &str, engine: RotationalSpeed| Curve {
        label: label.into(),
        points: (0..=35)
            .map(|step| {
                let pulley = millimetres(from + (to - from) * f64::from(step) / 35.0);
                let speed = speeds::driven(engine, crank, speeds::on_ribs(pulley, difference), slip);
                (pulley.si(), Some(speed.si()))
            })
            .collect(),
        dashed: false,
    };
    let suits = most >= least;
    Ok(Chart {
        title: "Alternator speed over its pulley".into(),
        finding: if suits {
            format!(
                "From {:.0} to {:.0} mm suits both idle and highest speed.",
                least.in_millimetres().ceil(),
                most.in_millimetres().floor()
            )
        } else {
            format!(
                "None suits both: under {:.0} mm it turns too fast, over {:.0} mm too slowly at idle.",
                least.in_millimetres(),
                most.in_millimetres()
            )
        },
        curves: vec![curve("at highest", high), curve("at idle", idle)],
        edges: vec![
            Edge { label: "most it may turn".into(), at: limit.si(), above: true },
            Edge { label: "wanted at idle".into(), at: wanted.si(), above: false },
        ],
        present: report.of(ALTERNATOR_PULLEY).ok().map(Length::si),
        bands: if suits { vec![(least.si(), most.si())] } else { Vec::new() },
        ..Chart::on(
            Axis { label: Cow::Borrowed("alternator pulley"), dimension: Length::DIMENSION, unit: MM },
            Axis { label: Cow::Borrowed("alternator speed"), dimension: RotationalSpeed::DIMENSION, unit: RPM },
        )
    })
}

/// Engine speed at which cavitation begins over coolant temperature, chosen and reference pulley: what the air shut in
/// above the coolant makes of it on the way from filling to work, and past it.
pub(in super::super) fn warm_up(plan: &Plan, build: &Build, report: &Report) -> Result<Chart, Unknown> {
    const STEPS: u8 = 40;
    let place = Place::from(INLET_TEMPERATURE.id);
    let (from, to) = (report.of(FILL_TEMPERATURE)?.max(celsius(1.0)), report.of(INLET_TEMPERATURE)?.max(celsius(110.0)));
    let engine = report.of(HIGHEST_SPEED)?;
    let (mut warming, mut warm) = (build.clone(), report.clone());
    let (mut chosen, mut reference) = (Vec::new(), Vec::new());
    for step in 0..=STEPS {
        let temperature = from + (to - from) * (f64::from(step) / f64::from(STEPS));
        let taken = warming.set(place, temperature.si()).is_ok();
        plan.evaluate_after(&warming, &mut warm, &[place]);
        for (points, output) in [(&mut chosen, ONSET), (&mut reference, ONSET_REFERENCE)] {
            let onset = warm.of(output).ok().filter(|_| taken).map(RotationalSpeed::si);
            points.push((temperature.si(), onset));
        }
    }
    let chosen = Curve { label: "chosen pulley".into(), points: chosen, dashed: false };
    let reference = Curve { label: "reference pulley".into(), points: reference, dashed: true };
    Ok(Chart {
        title: "Cavitation while warming up".into(),
        finding: format!(
            "Soonest at {:.0} °C: from {:.0} min⁻¹ of the engine.",
            report.of(WARM_UP_WORST)?.in_celsius(),
            report.of(ONSET_WARM_UP)?.in_per_minute()
        ),
        curves: vec![chosen, reference],
        edges: vec![Edge { label: "highest engine speed".into(), at: engine.si(), above: false }],
        present: report.of(INLET_TEMPERATURE).ok().map(Temperature::si),
        ..Chart::on(
            Axis { label: Cow::Borrowed("coolant temperature"), dimension: Temperature::DIMENSION, unit: CELSIUS },
            Axis { label: Cow::Borrowed("engine speed at which cavitation begins"), dimension: RotationalSpeed::DIMENSION, unit: RPM },
        )
    })
}
