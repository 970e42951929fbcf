//! What a search is asked: aims, limits of one's own, the slots to search, the limits to keep.

use super::{Aimed, Ask, Limit, currencies, moved};
use crate::bench::{Bench, calculator_of};
use crate::dom::{El, el, folded, put_value, value_in};
use crate::signal::{Memo, State};
use crate::tools::{Listed, asked, grouped_by_calculator, listed};
use crate::words;
use leptos::prelude::untrack;
use trialfit_core::calculators::ALL;
use trialfit_core::shelf::{Currency, Shelf};
use trialfit_core::show;
use trialfit_core::spec::Place;
use trialfit_core::tools::combine::{Must, Search, What};

/// A slot of the shelves.
#[derive(Clone, PartialEq)]
pub(super) struct Slot {
    pub(super) id: String,
    pub(super) name: String,
    parts: usize,
    /// The calculator whose inputs its parts set first.
    pub(super) group: Option<u8>,
}

/// The slots that have parts, in the order of the shelves.
pub(super) fn grouped(shelves: &[Shelf]) -> Vec<Slot> {
    let mut slots: Vec<Slot> = Vec::new();
    for shelf in shelves {
        for (at, slot) in shelf.slots.iter().enumerate() {
            let its = || shelf.parts.iter().filter(|part| part.slot == at);
            let group = its().find_map(|part| part.sets.first()).map(|(place, _)| place.id.calculator);
            match slots.iter_mut().find(|known| known.id == slot.id) {
                Some(known) => {
                    known.parts += its().count();
                    known.group = known.group.or(group);
                }
                None => slots.push(Slot { id: slot.id.clone(), name: slot.name.clone(), parts: its().count(), group }),
            }
        }
    }
    slots.retain(|slot| slot.parts > 0);
    slots
}

/// A box to tick that looks like a chip.
fn tick(id: &str, label: &str, now: impl Fn() -> bool + 'static, turn: impl Fn(bool) + 'static) -> El {
    let now = std::rc::Rc::new(now);
    let stands = now.clone();
    let tick = el("input").set("type", "checkbox").id(id).prop("checked", move || stands().into());
    let tick = tick.on("click", move |_| turn(!untrack(|| now())));
    el("label").class("chip").child(tick).child(el("span").text(label))
}

fn option(value: &str, label: &str) -> El {
    el("option").set("value", value).text(label)
}

fn place_of(key: &str) -> Option<Place> {
    Bench::get().build().with_untracked(|build| build.layout().place_by_key(key))
}

/// One of two ways, in a list beside what it is a way of.
fn way(id: &str, label: &str, ways: [&str; 2], second: State<bool>) -> El {
    let list = el("select").id(id).set("aria-label", label).child(option("0", ways[0])).child(option("1", ways[1]));
    list.value(move || u8::from(second.get()).to_string()).on("change", move |event| second.set(value_in(&event) == "1"))
}

impl Ask {
    /// Everything to be asked.
    pub(super) fn fields(self, search: Memo<Vec<Search>>, judged: Memo<Vec<Must>>) -> Vec<El> {
        let shelves = self.shelves;
        let answers = listed(move |_| shelves.with(|shelves| moved(shelves)));
        let aims = self.aims.iter().enumerate().map(|(at, aim)| aim_field(at, *aim, shelves, answers));
        let limits = (0..self.limits.len()).map(|at| self.limit_field(at, answers));
        let groups = el("fieldset").class("chips").id("combine-groups").child(el("legend").text(words::SEARCH_PARTS));
        let slots = el("details")
            .class("row-more")
            .id("combine-slots")
            .child(el("summary").says(move || words::slots(search.with(Vec::len), shelves.with(|shelves| grouped(shelves).len()))));
        let kept =
            move || judged.with(|judged| judged.iter().filter(|must| !self.waived.with(|waived| waived.contains(&must.place()))).count());
        let musts = el("details")
            .class("row-more")
            .id("combine-musts")
            .child(el("summary").says(move || words::limits_kept(kept(), judged.with(Vec::len))));
        vec![
            el("h4").text(words::AIMS),
            el("div").children(aims),
            el("h4").text(words::OWN_LIMITS),
            el("div").children(limits),
            groups.many(move || self.group_chips(search)),
            folded(slots, move || el("div").many(move || self.slot_chips(search))),
            folded(musts, move || el("div").child(el("p").class("help").text(words::LIMITS_HELP)).many(move || self.must_chips(judged))),
        ]
    }

    /// One limit of one's own; the next can be given once there is one before it.
    fn limit_field(self, at: usize, answers: Memo<Listed>) -> El {
        let Limit { on, place, least, number } = self.limits[at];
        let id = format!("combine-limit-{}", at + 1);
        let shown = move || if on.get() { Bench::get().key(place.get()) } else { String::new() };
        let take = move |event| {
            match place_of(&value_in(&event)) {
                Some(picked) => {
                    let now = Bench::get().value_now(picked);
                    number.set(Ok(now.map_or(0.0, |now| super::round(picked, now))));
                    place.set(picked);
                    on.set(true);
                }
                None => on.set(false),
            }
            put_value(&event, &untrack(shown));
        };
        let field = move || {
            let name = words::nth(words::LIMIT, at + 1);
            let list = el("select").id(&id).child(option("", words::NO_LIMIT)).many(move || answers.with(grouped_by_calculator));
            let list = list.value(move || {
                answers.with(|_| ());
                shown()
            });
            let way_id = format!("{id}-way");
            let way =
                move || on.get().then(|| way(&way_id, &words::act_of(words::LIMIT_WAY, &name), [words::AT_MOST, words::AT_LEAST], least));
            let number_id = format!("{id}-number");
            el("div")
                .child(
                    el("p")
                        .class("asked")
                        .child(el("label").set("for", &id).text(&words::nth(words::LIMIT, at + 1)))
                        .child(list.on("change", take))
                        .maybe(way),
                )
                .maybe(move || on.get().then(|| asked(&number_id, words::LIMIT_NUMBER, place, number)))
        };
        let before = at.checked_sub(1).map(|before| self.limits[before].on);
        el("div").when(move || on.get() || before.is_none_or(State::get), field)
    }

    fn group_chips(self, search: Memo<Vec<Search>>) -> Vec<El> {
        let slots = self.shelves.with(|shelves| grouped(shelves));
        let there: Vec<u8> = (0..ALL.len() as u8).filter(|group| slots.iter().any(|slot| slot.group == Some(*group))).collect();
        let all = there.clone();
        let slots = std::rc::Rc::new(slots);
        let chip = move |group: u8| {
            let (its, all, every) = (slots.clone(), all.clone(), slots.clone());
            // Slots that others need come along, whatever calculator they belong to.
            let ticked = move |slots: &[Slot], group: u8| match self.groups.get() {
                Some(groups) => groups.contains(&group),
                None => search.with(|search| {
                    let mut filled = search.iter().filter(|it| !it.or_none);
                    filled.any(|it| slots.iter().any(|slot| slot.id == it.slot && slot.group == Some(group)))
                }),
            };
            let turn = move |on: bool| {
                let groups =
                    untrack(|| all.iter().copied().filter(|&other| if other == group { on } else { ticked(&every, other) }).collect());
                let of_it = |slot: &String| every.iter().any(|it| it.id == *slot && it.group == Some(group));
                self.overruled.update(|overruled| overruled.retain(|(slot, _)| !of_it(slot)));
                self.groups.set(Some(groups));
            };
            let at = ALL[usize::from(group)];
            tick(&format!("combine-group-{}", at.key), at.label, move || ticked(&its, group), turn)
        };
        there.into_iter().map(chip).collect()
    }

    fn slot_chips(self, search: Memo<Vec<Search>>) -> Vec<El> {
        let slots = self.shelves.with(|shelves| grouped(shelves));
        let found = move |id: &str| search.with(|search| search.iter().find(|slot| slot.slot == id).map(|slot| slot.or_none));
        let overrule = move |id: &str, way: Option<bool>| {
            self.overruled.update(|overruled| {
                overruled.retain(|(slot, _)| slot != id);
                overruled.push((id.to_owned(), way));
            });
        };
        let row = |slot: &Slot| {
            let [one, other, third, fourth, fifth] = [(); 5].map(|()| slot.id.clone());
            let label = format!("{} ({})", slot.name, slot.parts);
            let tick_it = tick(
                &format!("combine-slot-{}", slot.id),
                &label,
                move || found(&one).is_some(),
                move |on| overrule(&other, on.then_some(false)),
            );
            let name = words::act_of(words::MAY_STAY_EMPTY, &slot.name);
            let empty = move || {
                let (now, turned) = (fourth.clone(), fifth.clone());
                let chip = tick(
                    &format!("combine-empty-{fourth}"),
                    words::MAY_STAY_EMPTY,
                    move || found(&now) == Some(true),
                    move |on| overrule(&turned, Some(on)),
                );
                el("span").set("role", "group").set("aria-label", &name).child(chip)
            };
            el("p").class("chips").child(tick_it).when(move || found(&third).is_some(), empty)
        };
        slots.iter().map(row).collect()
    }

    fn must_chips(self, judged: Memo<Vec<Must>>) -> Vec<El> {
        let bench = Bench::get();
        let places: Vec<Place> = judged.with(|judged| judged.iter().map(|must| must.place()).collect());
        let chip = |place: &Place| {
            let place = *place;
            let label = bench.build().with_untracked(|build| show::label(build, place));
            let kept = move || self.waived.with(|waived| !waived.contains(&place));
            let turn = move |on: bool| {
                self.waived.update(|waived| {
                    waived.retain(|other| *other != place);
                    if !on {
                        waived.push(place);
                    }
                });
            };
            tick(&format!("combine-must-{}", bench.key(place)), &label, kept, turn)
        };
        let groups = places.chunk_by(|one, other| one.id.calculator == other.id.calculator);
        groups
            .map(|group| {
                el("fieldset").class("chips").child(el("legend").text(calculator_of(group[0]).label)).children(group.iter().map(chip))
            })
            .collect()
    }
}

/// One aim: what, and whether little or much of it.
fn aim_field(at: usize, aim: Aimed, shelves: State<Vec<Shelf>>, answers: Memo<Listed>) -> El {
    let id = format!("combine-aim-{}", at + 1);
    let shown = move || match aim.what.get() {
        None => String::new(),
        Some(What::Output(place)) => Bench::get().key(place),
        Some(What::Price(currency)) => format!("price:{currency}"),
        Some(What::Mass) => "mass".to_owned(),
    };
    let prices = move || {
        let price = |currency: Currency| option(&format!("price:{currency}"), &words::price_in(currency));
        shelves.with(|shelves| currencies(shelves)).into_iter().map(price).collect()
    };
    let take = move |event| {
        let picked = value_in(&event);
        aim.what.set(match picked.strip_prefix("price:") {
            Some(letters) => Currency::new(letters).map(What::Price),
            None if picked == "mass" => Some(What::Mass),
            None => place_of(&picked).map(What::Output),
        });
        put_value(&event, &untrack(shown));
    };
    let name = words::nth(words::AIM, at + 1);
    let way = way(&format!("{id}-way"), &words::act_of(words::AIM_WAY, &name), [words::LEAST, words::MOST], aim.most);
    let list = el("select")
        .id(&id)
        .child(option("", words::NO_AIM))
        .many(prices)
        .child(option("mass", words::MASS_ADDED))
        .many(move || answers.with(grouped_by_calculator));
    let list = list.value(move || {
        answers.with(|_| ());
        shown()
    });
    el("p").class("asked").child(el("label").set("for", &id).text(&name)).child(list.on("change", take)).child(way)
}
