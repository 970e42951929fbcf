//! A chart, drawn like the drawings: curves with their names on them, limits as hatched edges, the present value as a
//! dimension, points that can be taken.

mod axis;
mod labels;
mod sheet;
mod values;

use crate::dom::{El, as_event, button, el, folded, svg};
use crate::language;
use crate::picture::{frame_of, nearest, pointer_in};
use crate::save;
use crate::signal::{Memo, memo};
use crate::words;
use leptos::prelude::*;
use trialfit_core::chart::{Axis, Chart, Spot};
use trialfit_core::order::Order;
use trialfit_core::show::{Shown, System, figure};

/// How far from a point a tap still takes it, in pixels.
const REACH: f64 = 30.0;

/// Units of a chart's axes and what taking one of its points does.
#[derive(Clone, Copy)]
pub struct Taking {
    pub units: Memo<System>,
    pub take: Callback<Spot>,
}

/// A chart with its finding, and all its values in a table below.
pub fn plot(chart: Memo<Chart>, taking: Taking) -> El {
    let units = taking.units;
    let stands = el("div").class("plot-frame");
    let frame = frame_of(&stands);
    let sheet = memo(move || chart.with(|chart| sheet::lay_out(chart, frame.get(), units.get())));
    let tapped = {
        let stands = stands.clone();
        move |event| {
            let at = pointer_in(&stands, as_event(&event));
            let order = chart.with_untracked(|chart| in_order(&chart.spots));
            // The chart may have changed since it was laid out.
            let spots = |sheet: &sheet::Sheet| order.iter().filter_map(|&index| sheet.spots.get(index).copied()).collect::<Vec<_>>();
            let spots = sheet.with_untracked(spots);
            if let Some(index) = nearest(spots.into_iter(), at, REACH, None).and_then(|found| order.get(found).copied()) {
                taking.spot(chart, index);
            }
        }
    };
    let title = move || chart.with(|chart| chart.title.clone());
    let finding = move || chart.with(|chart| chart.finding.clone());
    let reading = move || {
        let (at, curves) = chart.with(|chart| values::reading(chart, units.get()))?;
        let said = |(label, value): (String, Shown)| {
            // A label that is a number must not run into the value.
            let colon = if label.ends_with(|letter: char| letter.is_ascii_digit()) { ":" } else { "" };
            format!("{label}{colon} {value}")
        };
        let curves = curves.into_iter().map(said).collect::<Vec<_>>().join("; ");
        (!curves.is_empty()).then(|| words::reading(&at, &curves))
    };
    let far = move || sheet.with(|sheet| (!sheet.far.is_empty()).then(|| words::off_the_chart(&sheet.far.join("; "))));
    let notes = move || reading().into_iter().chain(far()).map(|words| el("p").class("plot-note").text(&words)).collect();
    let choosable = move || chart.with(|chart| chart.spots.iter().any(|spot| !spot.sets.is_empty()));
    let tabled = move || chart.with(values::is_of_curves);
    let picture = svg("svg")
        .class("plot-sheet")
        .set("role", "img")
        .bind("aria-label", move || Some(title()))
        .bind("viewBox", move || Some(frame.get().view_box()))
        .child(svg("desc").says(finding))
        .child(svg("g").drawn(move || sheet.with(|sheet| sheet.svg.clone())));
    let called = move || chart.with_untracked(|chart| chart.title.clone());
    let saves = save::saves(words::SAVE, called, picture.element(), move || Some(save_values(chart, units)));
    let caption = el("figcaption").child(el("b").class("plot-title").says(title)).text(" ").child(el("span").says(finding));
    el("figure")
        .class("plot")
        .child(caption)
        .child(stands.class_when("plot-choosable", choosable).on("click", tapped).child(picture))
        .many(notes)
        .when(choosable, move || choice(chart, taking))
        .when(tabled, move || table(chart, units))
        .child(saves)
}

/// The values of the chart as a file.
fn save_values(chart: Memo<Chart>, units: Memo<System>) -> El {
    button("quiet", "").text(words::SAVE_CSV).on_press(move || {
        let mut values = untrack(|| chart.with(|chart| values::table(chart, units.get())));
        values.head.iter_mut().for_each(|words| *words = language::said(words));
        let name = save::plain(&chart.with_untracked(|chart| language::said(&chart.title)));
        save::text(&format!("{name}.csv"), "text/csv", &values::csv(&values));
    })
}

impl Taking {
    fn spot(self, chart: Memo<Chart>, index: usize) {
        if let Some(spot) = chart.with_untracked(|chart| chart.spots.get(index).cloned()) {
            self.take.run(spot);
        }
    }
}

/// Points that can be taken from left to right, and upwards where they stand over one another: the way previous and next
/// go. Points that set nothing only mark something.
fn in_order(spots: &[Spot]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..spots.len()).filter(|&index| !spots[index].sets.is_empty()).collect();
    order.order_by(|&left, &right| {
        let ((x, y), (other_x, other_y)) = (spots[left].at, spots[right].at);
        x.total_cmp(&other_x).then(y.total_cmp(&other_y))
    });
    order
}

/// The point before or after the present one; with none present, the first inside every limit.
fn neighbour(spots: &[Spot], forward: bool) -> Option<usize> {
    let order = in_order(spots);
    let Some(here) = order.iter().position(|&index| spots[index].present) else {
        return order.iter().copied().find(|&index| spots[index].good).or(order.first().copied());
    };
    let there = if forward { here + 1 } else { here.checked_sub(1)? };
    order.get(there).copied()
}

/// Previous and next, and a list: the points without having to hit them.
fn choice(chart: Memo<Chart>, taking: Taking) -> El {
    let present = move || {
        chart.with(|chart| {
            chart.spots.iter().find(|spot| spot.present).map_or_else(|| words::NO_POINT.to_owned(), |spot| spot.label.clone())
        })
    };
    let neighbour_of = move |forward: bool| chart.with(|chart| neighbour(&chart.spots, forward));
    let step = move |forward: bool, name: &str, sign: &str| {
        button("", "").set("aria-label", name).prop("disabled", move || neighbour_of(forward).is_none().into()).text(sign).on_press(
            move || {
                if let Some(index) = untrack(|| neighbour_of(forward)) {
                    taking.spot(chart, index);
                }
            },
        )
    };
    let row = move |chart_now: &Chart, index: usize| {
        let spot = &chart_now.spots[index];
        let word = if spot.good { words::WITHIN_ALL } else { words::PAST_ONE };
        let of = |value: f64, axis: &Axis| figure(value, axis.unit, 3, taking.units.get());
        let at = format!("{}, {}, {word}", of(spot.at.0, &chart_now.x), of(spot.at.1, &chart_now.y));
        let class = if spot.good { "plot-spot" } else { "plot-spot plot-past" };
        let take = button(class, "").child(el("span").text(&spot.label)).text(" ").child(el("small").text(&at));
        let take = if spot.present { take.set("aria-current", "true") } else { take };
        el("li").child(take.on_press(move || taking.spot(chart, index)))
    };
    let rows = move || chart.with(|chart| in_order(&chart.spots).into_iter().map(|index| row(chart, index)).collect());
    let steps = el("div").class("plot-choice").child(step(false, words::PREVIOUS_POINT, "‹")).child(el("span").says(present)).child(step(
        true,
        words::NEXT_POINT,
        "›",
    ));
    el("div").class("plot-points").child(steps).child(list(words::ALL_POINTS, move || el("ul").many(rows)))
}

/// Every value of the curves.
fn table(chart: Memo<Chart>, units: Memo<System>) -> El {
    let values = move || {
        let (title, values) = chart.with(|chart| (chart.title.clone(), values::table(chart, units.get())));
        let head = values.head.iter().map(|words| el("th").set("scope", "col").text(words));
        let row = |row: &Vec<String>| {
            let cell = |(at, cell): (usize, &String)| if at == 0 { el("th").set("scope", "row") } else { el("td") }.text(cell);
            el("tr").children(row.iter().enumerate().map(cell))
        };
        let table = el("table")
            .child(el("caption").text(&title))
            .child(el("thead").child(el("tr").children(head)))
            .child(el("tbody").children(values.rows.iter().map(row)));
        Some(el("div").class("plot-values").set("tabindex", "0").set("role", "group").set("aria-label", &title).child(table))
    };
    list(words::ALL_VALUES, move || el("div").maybe(values))
}

fn list(summary: &str, inside: impl Fn() -> El + 'static) -> El {
    folded(el("details").class("plot-list").child(el("summary").text(summary)), inside)
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::spec::{Id, Place};

    fn spot(x: f64, y: f64, good: bool, present: bool) -> Spot {
        let sets = vec![(Place::from(Id { calculator: 0, ordinal: 0 }), x)];
        Spot { at: (x, y), label: String::new(), good, present, sets }
    }

    #[test]
    fn neighbours_go_from_left_to_right_and_stop_at_the_ends() {
        let spots = [spot(3.0, 1.0, true, false), spot(1.0, 2.0, false, true), spot(1.0, 1.0, true, false)];
        assert_eq!(in_order(&spots), [2, 1, 0]);
        assert_eq!(neighbour(&spots, true), Some(0));
        assert_eq!(neighbour(&spots, false), Some(2));
        let at_the_end = [spot(3.0, 1.0, true, true), spot(1.0, 2.0, false, false)];
        assert_eq!(neighbour(&at_the_end, true), None);
    }

    #[test]
    fn points_that_set_nothing_are_passed_over() {
        let mark = Spot { sets: Vec::new(), ..spot(2.0, 1.0, true, false) };
        assert_eq!(neighbour(&[spot(1.0, 1.0, true, true), mark, spot(3.0, 1.0, true, false)], true), Some(2));
    }

    #[test]
    fn with_none_present_the_first_good_one_is_next() {
        let spots = [spot(1.0, 2.0, false, false), spot(2.0, 1.0, true, false)];
        assert_eq!(neighbour(&spots, true), Some(1));
        assert_eq!(neighbour(&spots[..1], false), Some(0));
        assert_eq!(neighbour(&[], true), None);
    }
}
