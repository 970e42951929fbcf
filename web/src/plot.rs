//! A chart, drawn like the drawings: curves with their names on them, limits as hatched edges, the present value as a
//! dimension, points that can be taken.

mod axis;
mod labels;
mod sheet;
mod values;

use crate::picture::{frame_of, nearest, pointer_in};
use leptos::ev::MouseEvent;
use leptos::html::Div;
use leptos::prelude::*;
use trialfit_core::chart::{Chart, Spot};
use trialfit_core::show::{Shown, System, figure};
use trialfit_core::spec::Place;

/// How far from a point a tap still takes it, in pixels.
const REACH: f64 = 30.0;

/// A chart with its finding, and all its values in a table below.
#[component]
pub fn Plot(
    /// What to draw.
    #[prop(into)]
    chart: Signal<Chart>,
    /// Units of its axes.
    #[prop(into)]
    units: Signal<System>,
    /// A point was taken: its inputs and their values, SI.
    #[prop(into)]
    on_take: Callback<Vec<(Place, f64)>>,
) -> impl IntoView {
    let node = NodeRef::<Div>::new();
    let frame = frame_of(node);
    let sheet = Memo::new(move |_| chart.with(|chart| sheet::lay_out(chart, frame.get(), units.get())));
    let take = move |index: usize| {
        if let Some(sets) = chart.with_untracked(|chart| chart.spots.get(index).map(|spot| spot.sets.clone())) {
            on_take.run(sets);
        }
    };
    let tapped = move |event: MouseEvent| {
        let Some(at) = pointer_in(node, &event) else { return };
        let order = chart.with_untracked(|chart| in_order(&chart.spots));
        // The chart may have changed since it was laid out.
        let spots = |sheet: &sheet::Sheet| order.iter().filter_map(|&index| sheet.spots.get(index).copied()).collect::<Vec<_>>();
        let spots = sheet.with_untracked(spots);
        if let Some(index) = nearest(spots.into_iter(), at, REACH, None).and_then(|found| order.get(found).copied()) {
            take(index);
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
        (!curves.is_empty()).then(|| format!("At {at}: {curves}."))
    };
    let far = move || sheet.with(|sheet| (!sheet.far.is_empty()).then(|| format!("Off the chart: {}.", sheet.far.join("; "))));
    let note = move |words: String| view! { <p class="plot-note">{words}</p> };
    let choosable = Memo::new(move |_| chart.with(|chart| chart.spots.iter().any(|spot| !spot.sets.is_empty())));
    let tabled = Memo::new(move |_| chart.with(|chart| !chart.curves.is_empty()));
    view! {
        <figure class="plot">
            <figcaption><b class="plot-title">{title}</b>" "<span>{finding}</span></figcaption>
            <div class="plot-frame" class:plot-choosable=choosable node_ref=node on:click=tapped>
                <svg class="plot-sheet" role="img" aria-label=title viewBox=move || frame.get().view_box()>
                    <desc>{finding}</desc>
                    <g inner_html=move || sheet.with(|sheet| sheet.svg.clone())></g>
                </svg>
            </div>
            {move || reading().map(note)}
            {move || far().map(note)}
            <Show when=move || choosable.get()><Choice chart units on_take=take/></Show>
            <Show when=move || tabled.get()><Table chart units/></Show>
        </figure>
    }
}

/// Points that can be taken from left to right, and upwards where they stand over one another: the way previous and next
/// go. Points that set nothing only mark something.
fn in_order(spots: &[Spot]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..spots.len()).filter(|&index| !spots[index].sets.is_empty()).collect();
    order.sort_by(|&left, &right| {
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
#[component]
fn Choice(chart: Signal<Chart>, units: Signal<System>, on_take: impl Fn(usize) + Copy + Send + Sync + 'static) -> impl IntoView {
    let present = move || {
        chart.with(|chart| {
            chart.spots.iter().find(|spot| spot.present).map_or_else(|| "None of them.".to_owned(), |spot| spot.label.clone())
        })
    };
    let neighbour_of = move |forward: bool| chart.with(|chart| neighbour(&chart.spots, forward));
    let go = move |forward: bool| {
        if let Some(index) = neighbour_of(forward) {
            on_take(index);
        }
    };
    let rows = move || {
        chart.with(|chart| {
            let (x, y) = (chart.x.unit, chart.y.unit);
            let row = |index: usize| {
                let spot = &chart.spots[index];
                let word = if spot.good { "within every limit" } else { "past a limit" };
                let at = format!("{}, {}", figure(spot.at.0, x, 3, units.get()), figure(spot.at.1, y, 3, units.get()));
                view! {
                    <li>
                        <button type="button" class="plot-spot" class:plot-past=!spot.good aria-current=spot.present.then_some("true")
                            on:click=move |_| on_take(index)>
                            <span>{spot.label.clone()}</span>" "<small>{at}", "{word}</small>
                        </button>
                    </li>
                }
            };
            in_order(&chart.spots).into_iter().map(row).collect_view()
        })
    };
    view! {
        <div class="plot-choice">
            <button type="button" aria-label="previous point" disabled=move || neighbour_of(false).is_none() on:click=move |_| go(false)>
                "‹"
            </button>
            <span>{present}</span>
            <button type="button" aria-label="next point" disabled=move || neighbour_of(true).is_none() on:click=move |_| go(true)>"›"</button>
        </div>
        <details class="plot-list"><summary>"All points"</summary><ul>{rows}</ul></details>
    }
}

/// Every value of the curves.
#[component]
fn Table(chart: Signal<Chart>, units: Signal<System>) -> impl IntoView {
    let open = RwSignal::new(false);
    let caption = move || chart.with(|chart| chart.title.clone());
    let head = move |head: Vec<String>| head.into_iter().map(|words| view! { <th scope="col">{words}</th> }).collect_view();
    let row = move |row: Vec<String>| {
        let mut cells = row.into_iter();
        let first = cells.next();
        view! { <tr><th scope="row">{first}</th>{cells.map(|cell| view! { <td>{cell}</td> }).collect_view()}</tr> }
    };
    // Made only while it is open: a long table would cost at every change.
    let table = move || {
        let values = chart.with(|chart| values::table(chart, units.get()));
        view! {
            <div class="plot-values" tabindex="0" role="group" aria-label=caption>
                <table>
                    <caption>{caption}</caption>
                    <thead><tr>{head(values.head)}</tr></thead>
                    <tbody>{values.rows.into_iter().map(row).collect_view()}</tbody>
                </table>
            </div>
        }
    };
    view! {
        <details class="plot-list" on:toggle:target=move |event| open.set(event.target().open())>
            <summary>"All values"</summary>
            {move || open.get().then(table)}
        </details>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::spec::Id;

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
