//! A chart's values in words: a table of all of them, and the curves at the present value.

use trialfit_core::chart::{Chart, Curve, Spot};
use trialfit_core::order::Order;
use trialfit_core::quantity::Unit;
use trialfit_core::show::{Shown, System, answer};

/// Significant digits in tables and readings.
const DIGITS: u8 = 4;

/// All values of the curves, a row for each place along x that any of them has.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Values {
    pub(crate) head: Vec<String>,
    pub(crate) rows: Vec<Vec<String>>,
}

/// The table of a chart.
pub(crate) fn table(chart: &Chart, system: System) -> Values {
    let [x, y] = [&chart.x, &chart.y].map(|axis| system.unit(axis.dimension, axis.unit));
    if !is_of_curves(chart) {
        return points(chart, x, y);
    }
    let mut across: Vec<f64> = chart.curves.iter().flat_map(|curve| curve.points.iter().map(|point| point.0)).collect();
    across.order_by(f64::total_cmp);
    across.dedup();
    let mut head = vec![named(&chart.x.label, x.symbol)];
    head.extend(chart.curves.iter().map(|curve| named(&curve.label, y.symbol)));
    let cell = |curve: &Curve, at: f64| {
        let point = curve.points.iter().find(|point| point.0 == at).and_then(|point| point.1);
        point.map_or_else(|| "—".to_owned(), |value| answer(value, y, DIGITS).number)
    };
    let row = |&at: &f64| {
        let mut row = vec![answer(at, x, DIGITS).number];
        row.extend(chart.curves.iter().map(|curve| cell(curve, at)));
        row
    };
    Values { head, rows: across.iter().map(row).collect() }
}

/// Whether a chart is of curves over an input: others show points, with at most a border between them.
pub(crate) fn is_of_curves(chart: &Chart) -> bool {
    chart.curves.iter().any(|curve| !curve.label.is_empty())
}

fn named(label: &str, symbol: &str) -> String {
    if symbol.is_empty() { label.to_owned() } else { format!("{label}, {symbol}") }
}

/// A row for each point.
fn points(chart: &Chart, x: &'static Unit, y: &'static Unit) -> Values {
    let row = |spot: &Spot| vec![answer(spot.at.0, x, DIGITS).number, answer(spot.at.1, y, DIGITS).number, spot.label.clone()];
    Values {
        head: vec![named(&chart.x.label, x.symbol), named(&chart.y.label, y.symbol), String::new()],
        rows: chart.spots.iter().map(row).collect(),
    }
}

/// The table as comma-separated values (RFC 4180), numbers as other programs read them.
pub(crate) fn csv(values: &Values) -> String {
    let quoted = |cell: &String| format!("\"{}\"", cell.replace('"', "\"\""));
    let number = |cell: &String| match cell.chars().any(|letter| letter.is_alphabetic()) {
        true => quoted(cell),
        false => cell.replace('\u{202F}', "").replace('−', "-").replace('—', ""),
    };
    let line = |cells: Vec<String>| cells.join(",") + "\r\n";
    let head = line(values.head.iter().map(quoted).collect());
    values.rows.iter().fold(head, |text, row| text + &line(row.iter().map(number).collect()))
}

/// The present value, and what each curve says there.
pub(crate) fn reading(chart: &Chart, system: System) -> Option<(Shown, Vec<(String, Shown)>)> {
    let at = chart.present?;
    let [x, y] = [&chart.x, &chart.y].map(|axis| system.unit(axis.dimension, axis.unit));
    let curves = chart.curves.iter().filter_map(|curve| Some((curve.label.clone(), answer(curve.at(at)?, y, 3))));
    Some((answer(at, x, 3), curves.collect()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::chart::Axis;
    use trialfit_core::quantity::unit::{MM, N};
    use trialfit_core::quantity::{Force, Length};

    fn chart() -> Chart {
        let curve = |label: &str, points: &[(f64, Option<f64>)]| Curve { label: label.into(), points: points.to_vec(), dashed: false };
        Chart {
            title: String::new(),
            finding: String::new(),
            curves: vec![
                curve("new", &[(0.0, Some(10.0)), (0.01, Some(30.0)), (0.02, None), (0.03, Some(50.0))]),
                curve("worn", &[(0.01, Some(40.0)), (0.015, Some(45.0))]),
            ],
            present: Some(0.0125),
            ..Chart::on(
                Axis { label: "travel".into(), dimension: Length::DIMENSION, unit: MM },
                Axis { label: "force".into(), dimension: Force::DIMENSION, unit: N },
            )
        }
    }

    #[test]
    fn the_table_has_a_row_for_each_place_and_dashes_in_gaps() {
        let values = table(&chart(), System::Metric);
        assert_eq!(values.head, ["travel, mm", "new, N", "worn, N"]);
        assert_eq!(values.rows[1], ["10.00", "30.00", "40.00"]);
        assert_eq!(values.rows[3], ["20.00", "—", "—"]);
        assert_eq!(values.rows.len(), 5);
    }

    #[test]
    fn the_reading_leaves_out_curves_that_say_nothing_there() {
        let (at, curves) = reading(&chart(), System::Metric).expect("a present value");
        assert_eq!(at.to_string(), "12.5\u{A0}mm");
        assert_eq!(curves.len(), 1);
        assert_eq!((curves[0].0.as_str(), curves[0].1.to_string().as_str()), ("worn", "42.5\u{A0}N"));
    }

    #[test]
    fn values_go_out_as_other_programs_read_them() {
        let values = Values {
            head: vec!["speed, min⁻¹".into(), "the \"old\" one".into()],
            rows: vec![vec!["12\u{202F}500".into(), "−3.2".into()], vec!["7".into(), "—".into()]],
        };
        assert_eq!(csv(&values), "\"speed, min⁻¹\",\"the \"\"old\"\" one\"\r\n12500,-3.2\r\n7,\r\n");
    }
}
