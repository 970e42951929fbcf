//! Parts to choose from: shelves opened from files and kept on the device, what is chosen of them, and the kit list.

use crate::bench::Bench;
use crate::dom::{El, button, el, put_value, value_in};
use crate::follow::effect;
use crate::keep::SHELF;
use crate::language;
use crate::save;
use crate::signal::State;
use crate::tools::combine::combine;
use crate::words;
use leptos::prelude::untrack;
use litemap::LiteMap;
use trialfit_core::build::{Build, Fitted};
use trialfit_core::quantity::Mass;
use trialfit_core::quantity::unit::KG;
use trialfit_core::shelf::{self, Kit, Line, Shelf};
use trialfit_core::show;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_futures::spawn_local;
use web_sys::{File, HtmlInputElement};

/// Invented parts to try it with.
const DEMO: &str = include_str!("../../public/demo-shelf.json");

/// What it calls itself, and where it stands beside the page.
const DEMO_ID: &str = "demo";
const DEMO_AT: &str = "demo-shelf.json";

/// What is open.
#[derive(Clone, Copy)]
struct Open {
    shelves: State<Vec<Shelf>>,
    /// The file of each, as it was opened: the device may have had no room for it.
    files: State<LiteMap<String, String>>,
    /// What is wrong with what was opened last.
    problems: State<Vec<String>>,
}

/// Opening, choosing and the kit list.
pub fn parts() -> El {
    let bench = Bench::get();
    let open = Open { shelves: State::default(), files: State::default(), problems: State::default() };
    // Those kept, and one that comes by a link for as long as its car is visited.
    effect(move |_| {
        let came = bench.came.get();
        open.shelves.set(Vec::new());
        open.problems.set(Vec::new());
        bench.with_keeper(|keeper| keeper.texts_under(SHELF)).iter().for_each(|text| _ = open.take(text));
        match came {
            Some(Ok(text)) => _ = open.take(&text),
            Some(Err(why)) => open.tell(why),
            None => {}
        }
    });
    let file = el("input").id("open-shelf").set("type", "file").set("accept", ".json,application/json");
    let file = file.on("change", move |event| {
        let input: Option<HtmlInputElement> = event.target().and_then(|target| target.dyn_into().ok());
        if let Some(file) = input.and_then(|input| input.files()?.get(0)) {
            spawn_local(async move { open.read_file(file).await });
            // Mended, the same file is opened again.
            put_value(&event, "");
        }
    });
    let asked = el("p").class("asked").child(el("label").set("for", "open-shelf").text(words::OPEN_SHELF)).child(file);
    let demo = button("quiet", "demo-shelf").text(words::DEMO_SHELF).on_press(move || {
        open.read(DEMO);
        bench.keep_address(DEMO_ID, Some(DEMO_AT));
    });
    let problems = move || open.problems.with(|all| all.iter().map(|problem| el("p").class("problem").text(problem)).collect());
    let shelves = move || open.shelves.with(|all| (0..all.len()).map(|at| open.shelf(&all[at], at)).collect());
    let list = move || bench.build().with(|build| open.shelves.with(|shelves| kit_list(open, &shelf::kit(shelves, build), build)));
    el("section")
        .class("results")
        .id("parts")
        .set("tabindex", "-1")
        .set("aria-labelledby", "parts-title")
        .child(el("h2").id("parts-title").text(words::PARTS))
        .child(el("p").class("help").text(words::PARTS_HELP))
        .child(asked)
        .child(el("p").class("acts").child(demo))
        .many(problems)
        .when(move || open.shelves.with(|all| !all.is_empty()), move || combine(open.shelves))
        .many(shelves)
        .many(list)
}

impl Open {
    async fn read_file(self, file: File) {
        if file.size() > shelf::LONGEST as f64 {
            return self.problems.set(vec![shelf::Unreadable::TooLong { most: shelf::LONGEST }.to_string()]);
        }
        match JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string()) {
            Some(text) => self.read(&text),
            None => self.problems.set(vec![words::NO_FILE.to_owned()]),
        }
    }

    /// Opens a shelf and keeps it on the device.
    fn read(self, text: &str) {
        self.problems.set(Vec::new());
        if let Some(id) = self.take(text) {
            Bench::get().keep_address(&id, None);
            let kept = Bench::get().with_keeper(|keeper| keeper.keep_text(&format!("{SHELF}{id}"), text));
            if let Err(fault) = kept {
                self.tell(words::not_kept(fault).to_owned());
            }
        }
    }

    /// Opens a shelf in place of one with the same id; gives that. What is wrong with it is told.
    fn take(self, text: &str) -> Option<String> {
        let read = match shelf::read(text) {
            Ok(read) => read,
            Err(why) => {
                self.tell(why.to_string());
                return None;
            }
        };
        read.problems.iter().for_each(|problem| self.tell(problem.to_string()));
        let (id, shelf) = (read.shelf.id.clone(), read.shelf);
        // A link carries the ids of parts; their names are the shelf's.
        let build = Bench::get().build();
        if build.with_untracked(|build| build.parts().iter().any(|part| *part.shelf == *id)) {
            build.update(|build| shelf.name_parts(build));
        }
        self.files.update(|files| _ = files.insert(id.clone(), text.to_owned()));
        self.shelves.update(|all| {
            all.retain(|other| other.id != id);
            all.push(shelf);
        });
        Some(id)
    }

    fn tell(self, problem: String) {
        self.problems.update(|all| all.push(problem));
    }

    /// Puts a shelf away. Parts of it that are fitted stay fitted.
    fn put_away(self, id: &str) {
        _ = Bench::get().with_keeper(|keeper| keeper.discard(&format!("{SHELF}{id}")));
        Bench::get().keep_address(id, None);
        self.shelves.update(|all| all.retain(|other| other.id != id));
    }

    /// A list for each slot of a shelf.
    fn shelf(self, shelf: &Shelf, at: usize) -> El {
        let filled = (0..shelf.slots.len()).filter(|&slot| shelf.parts.iter().any(|part| part.slot == slot));
        let (id, kept) = (shelf.id.clone(), shelf.id.clone());
        let take = button("quiet", "").text(words::SAVE_SHELF).on_press(move || {
            if let Some(text) = self.files.with_untracked(|files| files.get(&kept).cloned()) {
                save::text(&format!("{kept}.json"), "application/json", &text);
            }
        });
        let away = button("quiet", "").text(words::PUT_AWAY).on_press(move || self.put_away(&id));
        el("section")
            .class("by-row")
            .set("data-shelf", &shelf.id)
            .child(el("h3").child(el("bdi").own(&shelf.name)))
            .child(el("p").class("help").child(el("bdi").own(&shelf.note)))
            .children(filled.map(|slot| self.slot(shelf, at, slot)))
            .child(el("p").class("acts").child(take).child(away))
    }

    fn slot(self, shelf: &Shelf, at: usize, slot: usize) -> El {
        let bench = Bench::get();
        let name = &shelf.slots[slot];
        let (shelf_id, slot_id) = (shelf.id.clone(), name.id.clone());
        let id = format!("part.{}.{}", shelf.id, name.id);
        let parts = shelf.parts.iter().filter(|part| part.slot == slot);
        let option = |part: &shelf::Part| {
            let more = [part.price.map(|price| price.to_string()), Some(part.stock.clone()).filter(|stock| !stock.is_empty())];
            let said = core::iter::once(part.name.clone()).chain(more.into_iter().flatten()).collect::<Vec<_>>().join(" · ");
            el("option").set("value", &part.id).own(&language::number(&said))
        };
        let fitted = move || {
            let here = |it: &&Fitted| *it.shelf == *shelf_id && *it.slot == *slot_id;
            bench.build().with(|build| build.parts().iter().find(here).map(|it| it.id.to_string())).unwrap_or_default()
        };
        let slot_id = name.id.clone();
        let now = fitted.clone();
        let choose = move |chosen: String| {
            let part = self.shelves.with_untracked(|all| {
                let shelf = all.get(at)?;
                Some((shelf.clone(), shelf.parts.get(shelf.find(&chosen)?)?.clone()))
            });
            let slot_id = slot_id.clone();
            self.problems.set(Vec::new());
            bench.try_out(words::CHOOSING, move |build| match part {
                Some((shelf, part)) => {
                    for (place, _) in shelf.choose(&part, build) {
                        self.tell(words::not_set(&part.name, &show::label(build, place)));
                    }
                }
                None => {
                    if let Some(part) = build.part_in(&slot_id) {
                        build.remove_part(part);
                    }
                }
            });
        };
        let list = el("select")
            .id(&id)
            .child(el("option").set("value", "").text(words::NONE_CHOSEN))
            .children(parts.map(option))
            .value(fitted)
            .on("change", move |event| {
                choose(value_in(&event));
                put_value(&event, &untrack(&now));
            });
        el("p").class("asked").child(el("label").set("for", &id).own(&name.name)).child(list)
    }
}

/// The shelves at hand: those kept, and one that came by a link.
pub fn shelves() -> Vec<Shelf> {
    let bench = Bench::get();
    let came = bench.came.with_untracked(|came| came.clone().and_then(Result::ok));
    let texts = bench.with_keeper(|keeper| keeper.texts_under(SHELF)).into_iter().chain(came);
    texts.filter_map(|text| shelf::read(&text).ok()).map(|read| read.shelf).collect()
}

/// A part's own page, which opens beside this one and is told nothing of it.
fn elsewhere(link: &str) -> El {
    el("a").set("href", link).set("target", "_blank").set("rel", "noopener noreferrer").text(words::PART_PAGE)
}

/// What can hurt with a part, in its shelf's words.
pub fn cautions(words: &[String]) -> Vec<El> {
    words.iter().map(|caution| el("span").class("caution").child(el("bdi").own(caution))).collect()
}

/// A mass in the reader's units.
pub fn weight(mass: Mass) -> String {
    show::figure(mass.si(), KG, 3, Bench::get().system()).to_string()
}

/// What a kit comes to.
pub fn total(kit: &Kit) -> String {
    let totals = kit.totals.iter().map(|total| total.price.to_string()).collect::<Vec<_>>().join(", ");
    words::kit_total(&totals, kit.not_priced, &weight(kit.mass), kit.not_weighed, &weight(kit.removed))
}

/// Everything chosen, what the rules still ask, totals, and a way to take it along.
fn kit_list(open: Open, kit: &Kit, build: &Build) -> Vec<El> {
    if kit.lines.is_empty() {
        return Vec::new();
    }
    let line = |line: &Line| {
        let facts =
            [line.price.map(|price| price.to_string()), line.mass.map(weight), Some(line.stock.clone()).filter(|stock| !stock.is_empty())];
        let facts = facts.into_iter().flatten().collect::<Vec<_>>().join(" · ");
        let detached = line.detached.iter().map(|it| words::detached(&show::label(build, it.place), it.by.as_deref()));
        el("li")
            .child(el("span").own(&line.slot).own(": ").child(el("bdi").own(&line.fitted.name)))
            .child(el("span").class("note").text(&facts))
            .children((!line.link.is_empty()).then(|| elsewhere(&line.link)))
            .children(detached.map(|words| el("span").class("note").text(&words)))
            .children(line.removes.iter().map(|it| el("span").class("note").text(&words::comes_off(&it.name))))
            .children(cautions(&line.cautions))
    };
    let troubles = kit.troubles.iter().map(|it| el("p").class("problem").child(el("bdi").text(&it.words)));
    let take = button("quiet", "kit-csv").text(words::KIT_CSV).on_press(move || {
        let csv = Bench::get()
            .build()
            .with_untracked(|build| open.shelves.with_untracked(|shelves| shelf::csv(&shelf::kit(shelves, build), language::said)));
        save::text("kit.csv", "text/csv", &csv);
    });
    core::iter::once(el("h3").id("kit").set("tabindex", "-1").text(words::KIT))
        .chain(troubles)
        .chain([
            el("ul").class("differs kit").children(kit.lines.iter().map(line)),
            el("p").class("found").text(&total(kit)),
            el("p").class("acts").child(take),
        ])
        .collect()
}
