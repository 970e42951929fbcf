//! What is cut, and what stands on its label: the loom list.

use super::choices::{Colour, Gauge, Return, Stripe};
use super::{
    BRANCH, CIRCUITS, COLOUR, CUT_LENGTH, FROM, GAUGE, LENGTH, NAME, RETURN, RETURN_LENGTH, SERVICE_LENGTH, SERVICE_SHARE, SIZE, STRIPE, TO,
};
use crate::build::Build;
use crate::data::conductors::GAUGES;
use crate::listing::Listing;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{CONDUCTOR, M, MM, PERCENT};
use crate::quantity::{Area, Length, Ratio, Value, square_millimetres};
use crate::report::{Report, Unknown};
use crate::sentence::Piece;
use crate::spec::{Domain, Place, RowId, Source};

static CUT: Line =
    Line { equation: "l_c = l · (1 + s) + a", terms: &[("l", M), ("s", PERCENT), ("a", MM)], unit: M, source: Source::CommonPractice };

const THICKER: Unknown = Unknown::NoSolution("No American gauge is as thick.");

/// Length to cut for a wire of this length: a share and a piece more.
#[must_use]
pub fn cut_length(length: Length, share: Ratio, piece: Length) -> Length {
    length * (1.0 + share.si()) + piece
}

/// The trade's gauge whose copper is not less than this nominal area.
#[must_use]
pub fn gauge_not_thinner(area: Area) -> Option<Gauge> {
    let at = GAUGES.iter().position(|&(_, gauge)| square_millimetres(gauge) >= area)?;
    Some(Gauge::from_cell(at as f64))
}

pub(super) const LISTED: Step = Step {
    name: "loom list",
    reads: &[SIZE.id, LENGTH.id, SERVICE_SHARE.id, SERVICE_LENGTH.id],
    writes: &[GAUGE.id, CUT_LENGTH.id],
    run: run_listed,
};

fn run_listed(case: &mut Case<'_>) {
    let (share, piece) = (case.of(SERVICE_SHARE), case.of(SERVICE_LENGTH));
    for row in 0..case.rows(CIRCUITS) {
        case.answer_row(GAUGE, row, |case| gauge_not_thinner(case.cell(SIZE, row)?).ok_or(THICKER));
        case.answer_row(CUT_LENGTH, row, |case| {
            let (length, share, piece) = (case.cell(LENGTH, row)?, share?, piece?);
            Ok(case.say(&CUT, &[length.si(), share.si(), piece.si()], cut_length(length, share, piece)))
        });
    }
}

/// One wire to cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Wire {
    /// What stands on its label: `7 Fuel pump`, `7R Fuel pump` for what comes back.
    pub label: String,
    /// Where it starts.
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// Nominal area.
    pub size: Result<Area, Unknown>,
    /// American gauge not thinner, as the trade writes it.
    pub gauge: &'static str,
    /// Letters of IEC 60757 (from memory): base, then stripe.
    pub colour: String,
    /// To cut, allowance included.
    pub length: Result<Length, Unknown>,
    /// Letter of its branch.
    pub branch: &'static str,
}

/// What stands on a wire's label. The number is the row's name, which is never given twice.
pub(super) fn label_of(build: &Build, row: RowId, back: &str) -> String {
    let name = build.text(Place { id: NAME.id, row: Some(row) });
    format!("{}{back} {name}", row.0).trim_end().to_owned()
}

/// Every wire of the loom in the order of the rows, returns of their own after what they come back from.
#[must_use]
pub fn list(build: &Build, report: &Report) -> Vec<Wire> {
    let mut wires = Vec::new();
    for (at, &row) in build.rows(CIRCUITS).iter().enumerate() {
        let text = |id| build.text(Place { id, row: Some(row) }).to_owned();
        let (from, to) = (text(FROM.id), text(TO.id));
        let size = report.cell(SIZE, at);
        let gauge = report.cell(GAUGE, at).map_or("", label);
        let base = report.cell(COLOUR, at).map_or("", |colour: Colour| letters(label(colour)));
        let stripe = match report.cell(STRIPE, at) {
            Ok(Stripe::None) | Err(_) => "",
            Ok(stripe) => letters(label(stripe)),
        };
        let branch = report.cell(BRANCH, at).map_or("", label);
        wires.push(Wire {
            label: label_of(build, row, ""),
            from: from.clone(),
            to: to.clone(),
            size,
            gauge,
            colour: format!("{base}{stripe}"),
            length: report.cell(CUT_LENGTH, at),
            branch,
        });
        let (back, end) = match report.cell(RETURN, at) {
            Ok(Return::OwnWire) => (true, "Earth point"),
            Ok(Return::LowSide) => (true, "Control unit"),
            Ok(Return::Body) => (true, "Body"),
            Ok(Return::Engine) => (true, "Engine"),
            Ok(Return::NotCounted) | Err(_) => (false, ""),
        };
        let length = report.cell(RETURN_LENGTH, at);
        if back && length != Ok(Length::ZERO) {
            let allowance = report.of(SERVICE_SHARE).and_then(|share| Ok((share, report.of(SERVICE_LENGTH)?)));
            wires.push(Wire {
                label: label_of(build, row, "R"),
                from: to,
                to: end.into(),
                size,
                gauge,
                // Black is earth; what the control unit switches is live until it does, and keeps its colour.
                colour: if end == "Control unit" { format!("{base}BK") } else { "BK".into() },
                length: length.and_then(|length| allowance.map(|(share, piece)| cut_length(length, share, piece))),
                branch,
            });
        }
    }
    wires
}

/// The loom list; its labels are for both ends of every wire.
#[must_use]
pub fn listing(build: &Build, report: &Report) -> Listing {
    let wires = list(build, report);
    let figure = |value: Result<f64, Unknown>, unit| value.map_or_else(|_| vec!["?".into()], |value| vec![Piece::figure(value, unit)]);
    let row = |wire: &Wire| -> Vec<Vec<Piece>> {
        vec![
            vec![wire.label.clone().into()],
            vec![wire.from.clone().into()],
            vec![wire.to.clone().into()],
            figure(wire.size.map(Value::to_cell), CONDUCTOR),
            vec![wire.gauge.into()],
            vec![wire.colour.clone().into()],
            figure(wire.length.map(Value::to_cell), M),
            vec![wire.branch.into()],
        ]
    };
    Listing {
        title: "Loom list",
        help: "One line a wire, the length with its allowance. Colours are letters of IEC 60757, the stripe after the base.",
        head: &["Label", "From", "To", "Size", "AWG", "Colour", "Cut", "Branch"],
        rows: wires.iter().map(row).collect(),
        labels: wires.iter().flat_map(|wire| [wire.label.clone(), wire.label.clone()]).collect(),
    }
}

/// A choice as the screen writes it.
fn label<V: Value>(value: V) -> &'static str {
    match V::DOMAIN {
        Domain::Choices(choices) => choices.get(value.to_cell() as usize).map_or("", |choice| choice.label),
        Domain::Dimension(_) => "",
    }
}

/// `BK` of `BK black`.
fn letters(label: &'static str) -> &'static str {
    label.split(' ').next().unwrap_or_default()
}
