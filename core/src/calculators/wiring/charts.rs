//! Drop, wire temperature and fuse of the circuit that stands worst.

use super::check::{loom, placed};
use super::protection::ADIABATIC;
use super::sentence::{by_need, name};
use super::{ALLOWED, CHECK, CIRCUITS, CONDUCTIVITY, COPPER_LENGTH, DROP, LASTING, OTHER_DROP, PEAK, SIZE, SMALLEST, WIRE_TEMPERATURE};
use crate::build::Build;
use crate::chart::{Axis, Chart, Curve, Edge, Spot};
use crate::data::conductors::{Conductor, STOCKED_AREAS, after_short};
use crate::data::fuses::MUST_OPEN;
use crate::plan::Plan;
use crate::quantity::unit::{CELSIUS, CONDUCTOR, ONE, V};
use crate::quantity::{Area, CurrentSquareTime, Ratio, Temperature, Voltage, square_millimetres};
use crate::report::{Report, Unknown};
use crate::spec::{Place, Verdict};
use std::borrow::Cow;

const NO_CIRCUIT: Unknown = Unknown::NoSolution("There is no circuit to draw.");

const SIZE_AXIS: Axis = Axis { label: Cow::Borrowed("wire size"), dimension: Area::DIMENSION, unit: CONDUCTOR };

/// Sizes drawn go up to this many times the larger of the chosen and the smallest that passes.
const DRAWN: f64 = 4.0;

/// One circuit tried in the sizes of the trade.
struct Tried {
    place: Place,
    at: usize,
    sizes: Vec<(Area, Report)>,
    present: Option<Area>,
}

fn tried(plan: &Plan, build: &Build, report: &Report) -> Result<Tried, Unknown> {
    let at = by_need(build, report).first().copied().ok_or(NO_CIRCUIT)?;
    let row = build.rows(CIRCUITS).get(at).copied();
    let place = Place { id: SIZE.id, row };
    // What no size can cure has nothing to draw.
    report.cell(PEAK, at)?;
    report.cell(COPPER_LENGTH, at)?;
    let present = report.cell(SIZE, at).ok();
    let smallest = report.cell(SMALLEST, at).ok();
    let middle = present.unwrap_or(Area::ZERO).max(smallest.unwrap_or(square_millimetres(2.5)));
    let mut build = build.clone();
    let mut sizes = Vec::new();
    let mut varied = report.clone();
    for &area in STOCKED_AREAS.iter().filter(|&&area| square_millimetres(area) <= middle * DRAWN) {
        let area = square_millimetres(area);
        if build.set(place, area.si()).is_ok() {
            plan.evaluate_after(&build, &mut varied, &[place]);
            sizes.push((area, varied.clone()));
        }
    }
    Ok(Tried { place, at, sizes, present })
}

impl Tried {
    fn passes(&self, build: &Build, report: &Report) -> bool {
        let verdict = report.verdict(build, Place { id: CHECK.id, row: self.place.row });
        matches!(verdict, Verdict::Within | Verdict::Near)
    }

    fn chart(&self, build: &Build, title: &str, y: Axis, curves: Vec<Curve>, edge: Edge) -> Chart {
        let name = name(build, self.at);
        let passing: Vec<Area> = self.sizes.iter().filter(|(_, report)| self.passes(build, report)).map(|(area, _)| *area).collect();
        let last = self.sizes.last().map_or(Area::ZERO, |(area, _)| *area);
        let finding = match passing.first() {
            Some(first) => format!("{name}: {} mm² and thicker pass.", first.in_square_millimetres()),
            None => format!("{name}: none of these sizes passes."),
        };
        let spots = curves.first().map(|curve| {
            let points = curve.points.iter().zip(&self.sizes);
            let spot = |(&(x, y), (area, report)): (&(f64, Option<f64>), &(Area, Report))| {
                Some(Spot {
                    at: (x, y?),
                    label: format!("{} mm²", area.in_square_millimetres()),
                    good: self.passes(build, report),
                    present: self.present == Some(*area),
                    sets: vec![(self.place, area.si())],
                })
            };
            points.filter_map(spot).collect()
        });
        Chart {
            title: format!("{title}: {name}"),
            finding,
            curves,
            edges: vec![edge],
            spots: spots.unwrap_or_default(),
            present: self.present.map(Area::si),
            bands: passing.first().map(|first| (first.si(), last.si())).into_iter().collect(),
            ..Chart::on(SIZE_AXIS, y)
        }
    }
}

/// Voltage lost against size, hot and at 20 °C.
pub(super) fn drop_by_size(plan: &Plan, build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let tried = tried(plan, build, report)?;
    let at = tried.at;
    let (peak, length, others) = (report.cell(PEAK, at)?, report.cell(COPPER_LENGTH, at)?, report.cell(OTHER_DROP, at)?);
    let hot = tried.sizes.iter().map(|(area, report)| (area.si(), report.cell(DROP, at).ok().map(Voltage::si))).collect();
    let cold = |area: Area| Conductor::of(area).map(|wire| (peak * (wire.resistance * length) + others).si());
    let cold = tried.sizes.iter().map(|(area, _)| (area.si(), cold(*area))).collect();
    let edge = Edge { label: "may lose".into(), at: report.cell(ALLOWED, at)?.si(), above: true };
    let curves =
        vec![Curve { label: "hot".into(), points: hot, dashed: false }, Curve { label: "at 20 °C".into(), points: cold, dashed: true }];
    let y = Axis { label: Cow::Borrowed("voltage lost"), dimension: Voltage::DIMENSION, unit: V };
    Ok(tried.chart(build, "Voltage lost", y, curves, edge))
}

/// Wire temperature against size.
pub(super) fn temperature_by_size(plan: &Plan, build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let tried = tried(plan, build, report)?;
    let at = tried.at;
    let warm = |report: &Report| report.cell(WIRE_TEMPERATURE, at).ok().map(Temperature::si);
    let points = tried.sizes.iter().map(|(area, report)| (area.si(), warm(report))).collect();
    let edge = Edge { label: "insulation stands".into(), at: report.cell(LASTING, at)?.si(), above: true };
    let curves = vec![Curve { label: "copper".into(), points, dashed: false }];
    let y = Axis { label: Cow::Borrowed("wire's temperature"), dimension: Temperature::DIMENSION, unit: CELSIUS };
    Ok(tried.chart(build, "Wire's temperature", y, curves, edge))
}

/// How warm the wire is when its fuse opens at the latest, at every listed multiple of its rating.
pub(super) fn temperature_when_fuse_opens(_plan: &Plan, build: &Build, report: &Report) -> Result<Chart, Unknown> {
    let fused = |&at: &usize| report.cell(super::WARMEST, at).is_ok();
    let at = by_need(build, report).into_iter().find(fused).ok_or(NO_CIRCUIT)?;
    let mut cells = report;
    let loom = loom(&mut cells, report.of(CONDUCTIVITY));
    let placed = placed(&mut cells, at, &loom)?;
    let fuse = placed.demand.fuse.ok_or(NO_CIRCUIT)?;
    let node = placed.tried().node();
    let insulation = placed.demand.insulation;
    let warm = |multiple: f64, latest: crate::quantity::Time| {
        let current = fuse.rating * multiple;
        if latest <= ADIABATIC {
            let through = CurrentSquareTime::from_si(current.si() * current.si() * latest.si());
            Some(after_short(placed.temperature, through, placed.wire.metal()))
        } else if multiple <= MUST_OPEN {
            node.settled(current)
        } else {
            Some(node.temperature_after(current, latest, placed.temperature))
        }
    };
    let long = fuse.openings().iter().filter(|opening| opening.latest > ADIABATIC);
    let short = fuse.openings().iter().filter(|opening| opening.latest <= ADIABATIC);
    let point = |opening: &crate::data::fuses::Opening| (opening.multiple, warm(opening.multiple, opening.latest).map(Temperature::si));
    let (long, short): (Vec<_>, Vec<_>) = (long.map(point).collect(), short.map(point).collect());
    let below = |points: &[(f64, Option<f64>)], limit: Temperature| points.iter().all(|(_, y)| y.is_some_and(|y| y <= limit.si()));
    let holds = below(&long, insulation.overload) && below(&short, insulation.short);
    let name = name(build, at);
    let rating = fuse.rating.in_amperes();
    let finding = if holds {
        format!("{name}: a {rating} A fuse opens before its wire is damaged.")
    } else {
        format!("{name}: a {rating} A fuse may open after its wire is damaged.")
    };
    Ok(Chart {
        title: format!("Wire when its fuse opens at the latest: {name}"),
        finding,
        curves: vec![
            Curve { label: "overload".into(), points: long, dashed: false },
            Curve { label: "short".into(), points: short, dashed: false },
        ],
        edges: vec![
            Edge { label: "stands for hours".into(), at: insulation.overload.si(), above: true },
            Edge { label: "stands for 5 s".into(), at: insulation.short.si(), above: true },
        ],
        ..Chart::on(
            Axis { label: Cow::Borrowed("current over the fuse's rating"), dimension: Ratio::DIMENSION, unit: ONE },
            Axis { label: Cow::Borrowed("wire's temperature"), dimension: Temperature::DIMENSION, unit: CELSIUS },
        )
    })
}
