//! The cars this browser keeps: which is on the bench, their names, copies, files to take along and to bring back.

use crate::banners::own_car;
use crate::bench::{Bench, Notice};
use crate::dom::{El, button, el, item, put_value, value_in};
use crate::follow::settle;
use crate::history::{Gesture, History};
use crate::keep::{self, Fault, Imported, Keeper, Listed};
use crate::language;
use crate::moment::Moment;
use crate::page::{bring, called, focus_later};
use crate::signal::State;
use crate::{browser, save, words};
use leptos::prelude::{document, untrack};
use trialfit_core::build::Build;
use trialfit_core::calculators::car::NAME;
use trialfit_core::order::Order;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_futures::spawn_local;
use web_sys::{File, HtmlInputElement, ScrollLogicalPosition};

/// A file longer than this is none of ours.
const LONGEST: f64 = 5e6;

/// All of them, as they are listed.
#[derive(Clone, PartialEq, Debug)]
struct Cars {
    on_bench: u32,
    kept: Vec<Listed>,
    thrown: Vec<Listed>,
}

/// The list, which every act makes anew, and what the last one came to.
#[derive(Clone, Copy)]
struct List {
    cars: State<Cars>,
    told: State<Vec<String>>,
}

/// The car of one's own that is on the bench, while another may be looked at.
fn own(bench: Bench) -> Build {
    bench.visit.with_untracked(|visit| visit.as_ref().map(|visit| visit.own.clone())).unwrap_or_else(|| bench.build().get_untracked())
}

fn find() -> Cars {
    let bench = Bench::get();
    let name = keep::name(&own(bench));
    bench.with_keeper(|keeper| {
        let on_bench = keeper.number();
        let mut kept = keeper.list();
        // It may not be kept yet, or not as it is now.
        kept.retain(|car| car.number != on_bench);
        kept.push(Listed { number: on_bench, name, whole: true });
        kept.order_by_key(|car| car.number);
        Cars { on_bench, kept, thrown: keeper.thrown() }
    })
}

/// The cars kept here, and all that can be done with them.
pub fn cars() -> El {
    let bench = Bench::get();
    let list = List { cars: State::new(find()), told: State::default() };
    let kept = move || {
        let Cars { on_bench, kept, .. } = list.cars.get();
        let visits = bench.visit.with(Option::is_some);
        let key = |car: &Listed| format!("{} {} {} {visits}", car.number, car.number == on_bench, car.whole);
        kept.into_iter().map(|car| item(key(&car), move || list.car(car.number, car.whole))).collect()
    };
    let thrown = move || list.cars.get().thrown.into_iter().map(|car| item(format!("{car:?}"), move || list.thrown(car))).collect();
    let any_thrown = move || list.cars.with(|cars| !cars.thrown.is_empty());
    let another = button("quiet", "another-car").text(words::NEW_CAR).on_press(move || list.start(|_| ()));
    let next = button("quiet", "next-customer").text(words::NEXT_CUSTOMER).on_press(move || list.start(file_with_time));
    let all = button("quiet", "save-cars").text(words::SAVE_CARS).on_press(move || list.save_all());
    let file = el("input").id("open-cars").set("type", "file").on("change", move |event| {
        let input = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
        if let Some(file) = input.and_then(|input| input.files()?.get(0)) {
            spawn_local(async move { list.import(file).await });
            put_value(&event, "");
        }
    });
    let told = move || list.told.with(|told| told.iter().map(|line| el("p").child(el("bdi").text(line))).collect());
    el("section")
        .child(el("h3").id("cars-title").set("tabindex", "-1").text(words::MENU_CARS))
        .child(el("p").class("note").text(words::KEPT_HERE).text(" ").child(promised()))
        .child(el("div").class("note").id("cars-told").set("role", "status").many(told))
        .child(el("ul").class("cars").id("cars").each(kept))
        .when(any_thrown, || el("h4").text(words::THROWN))
        .child(el("ul").class("cars thrown").id("thrown").each(thrown))
        .child(el("p").class("acts").child(another).child(next).child(all))
        .child(el("p").class("note").text(words::NEXT_CUSTOMER_HELP))
        .child(el("p").class("asked").child(el("label").set("for", "open-cars").text(words::OPEN_CARS)).child(file))
}

/// Whether the browser keeps them whatever happens.
fn promised() -> El {
    let promised = State::new(None);
    spawn_local(async move { promised.set(browser::promised().await) });
    el("span").id("promised").says(move || promised.get().map(words::promised).unwrap_or_default().to_owned())
}

impl List {
    fn name(self, number: u32) -> String {
        let named = |cars: &Cars| cars.kept.iter().find(|car| car.number == number).map(|car| car.name.clone());
        self.cars.with(named).unwrap_or_default()
    }

    /// The name as it is spoken of.
    fn called(self, number: u32) -> String {
        Some(self.name(number)).filter(|name| !name.is_empty()).unwrap_or_else(|| {
            let demo = self.cars.with(|cars| cars.on_bench == number) && Bench::get().is_demo();
            language::says(if demo { words::DEMO_NAME } else { words::NO_NAME }).into_owned()
        })
    }

    fn car(self, number: u32, whole: bool) -> El {
        let bench = Bench::get();
        let is_on_bench = self.cars.with_untracked(|cars| cars.on_bench == number);
        let may_be_named = whole && !(is_on_bench && bench.visit.with_untracked(Option::is_some));
        let name = if may_be_named {
            el("input")
                .class("words")
                .set("type", "text")
                .set("dir", "auto")
                .set("maxlength", "60")
                .set("autocomplete", "off")
                .bind("placeholder", move || Some(self.called(number)))
                .bind("aria-label", move || Some(words::act_of(words::NAME, &self.called(number))))
                .value(move || self.name(number))
                .on("change", move |event| {
                    let name = value_in(&event);
                    if is_on_bench {
                        bench.edit(Gesture::Once, words::NAMING, move |build| _ = build.set_text(NAME.id.into(), &name));
                        self.cars.set(find());
                    } else {
                        self.act(|keeper| keeper.rename(number, &name));
                    }
                })
        } else {
            el("bdi").says_own(move || self.called(number))
        };
        let act = |word: &'static str, act: fn(Self, u32)| {
            button("quiet", "")
                .set("data-act", word)
                .bind("aria-label", move || Some(words::act_of(word, &self.called(number))))
                .text(word)
                .on_press(move || act(self, number))
        };
        let line = el("li").set("data-car", &number.to_string()).child(name);
        let acts = el("p").class("acts");
        let acts = if is_on_bench {
            acts.child(el("span").class("note").text(words::ON_THE_BENCH))
        } else {
            acts.child(act(words::OPEN, Self::open))
        };
        let acts = acts.children(whole.then(|| act(words::COPY, Self::copy))).child(act(words::SAVE_CAR, Self::save));
        line.child(acts.children((!is_on_bench).then(|| act(words::THROW_AWAY, Self::throw_away))))
    }

    fn thrown(self, Listed { number, name, .. }: Listed) -> El {
        let called = if name.is_empty() { language::says(words::NO_NAME).into_owned() } else { name };
        let back = button("quiet", &back_id(number)).set("aria-label", &words::act_of(words::PUT_BACK, &called)).text(words::PUT_BACK);
        let back = back.on_press(move || {
            self.act(|keeper| keeper.put_back(number));
            focus_later("cars-title".into());
        });
        el("li").set("data-thrown", &number.to_string()).child(el("bdi").own(&called)).child(back)
    }

    /// Does something to what is kept; tells it if that could not be done.
    fn act(self, act: impl FnOnce(&mut Keeper<browser::Browser>) -> Result<(), Fault>) {
        let done = Bench::get().with_keeper(act);
        self.told.set(done.err().map(|fault| words::not_kept(fault).to_owned()).into_iter().collect());
        self.cars.set(find());
    }

    fn copy(self, number: u32) {
        let bench = Bench::get();
        self.act(|keeper| {
            let build = if keeper.number() == number { Some(own(bench)) } else { keeper.read(number) };
            let Some(mut build) = build else { return Ok(()) };
            _ = build.set_text(NAME.id.into(), &language::says(&words::copy_of(&self.called(number))));
            keeper.file(build).map(drop)
        });
    }

    fn open(self, number: u32) {
        if self.may_leave() {
            open(number);
        }
        self.cars.set(find());
    }

    /// Whether what is on the bench may go from there: what could not be kept is kept now, or stays.
    fn may_leave(self) -> bool {
        let bench = Bench::get();
        leave_visit(bench);
        if bench.with_keeper(|keeper| keeper.is_unsaved()) {
            bench.keep();
        }
        bench.keep_steps();
        let fault = |notice: &Notice| if let Notice::NotKept(fault) = notice { Some(*fault) } else { None };
        let unsaved = bench.with_keeper(|keeper| keeper.is_unsaved());
        let fault = bench.notices.with_untracked(|notices| notices.iter().find_map(fault)).filter(|_| unsaved);
        self.told.set(fault.map(|fault| words::not_kept(fault).to_owned()).into_iter().collect());
        !unsaved
    }

    fn throw_away(self, number: u32) {
        self.act(|keeper| keeper.throw_away(number));
        focus_later(back_id(number));
    }

    fn save(self, number: u32) {
        if let Some(text) = text_of(number) {
            save::text(&format!("{}.trialfit.txt", words::file_name(&self.called(number))), "text/plain", &text);
        }
    }

    fn save_all(self) {
        let numbers = self.cars.with_untracked(|cars| cars.kept.iter().map(|car| car.number).collect::<Vec<_>>());
        let texts = numbers.into_iter().filter_map(text_of).map(|text| text.trim_end().to_owned() + "\n");
        save::text(&format!("cars-{}.trialfit.txt", browser::today()), "text/plain", &texts.collect::<String>());
    }

    async fn import(self, file: File) {
        if file.size() > LONGEST {
            return self.tell(vec![words::TOO_LONG.to_owned()]);
        }
        let Some(text) = JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string()) else {
            return self.tell(vec![words::NO_FILE.to_owned()]);
        };
        let Imported { count, problems, stopped, left_out } = Bench::get().with_keeper(|keeper| keeper.import(&text));
        let problems = problems.iter().map(|(car, problem)| words::in_file(car, problem));
        let stopped = stopped.map(|fault| words::not_kept(fault).to_owned());
        let left_out = (left_out > 0).then(|| words::left_out(left_out));
        self.cars.set(find());
        self.tell([words::imported(count)].into_iter().chain(problems).chain(stopped).chain(left_out).collect());
    }

    /// Tells what came of a file, and shows where: its field stands far below.
    fn tell(self, lines: Vec<String>) {
        self.told.set(lines);
        settle();
        if let Some(told) = document().get_element_by_id("cars-told") {
            bring(told.unchecked_ref(), ScrollLogicalPosition::Center);
        }
    }

    /// Starts a car of which nothing is known, once what is on the bench is seen to.
    fn start(self, see_to: fn(Bench)) {
        let bench = Bench::get();
        leave_visit(bench);
        see_to(bench);
        if !self.may_leave() {
            return;
        }
        let build = own_car();
        match bench.with_keeper(|keeper| keeper.save_anew(&build)) {
            Ok(_) => {
                bench.hold_again();
                bench.replace(build, History::default());
            }
            Err(fault) => bench.tell(Notice::NotKept(fault)),
        }
        self.cars.set(find());
    }
}

fn back_id(number: u32) -> String {
    format!("put-back-{number}")
}

/// The stored text of a car; of the one on the bench as it is, whether it could be kept or not.
fn text_of(number: u32) -> Option<String> {
    let bench = Bench::get();
    bench.with_keeper(|keeper| if keeper.number() == number { Some(keep::written(&own(bench), 1)) } else { keeper.text_of(number) })
}

/// The next customer's turn: this one's car is filed under its name with the time.
fn file_with_time(bench: Bench) {
    let build = bench.build().get_untracked();
    if build != Build::default() {
        let name = words::filed(&untrack(called), &browser::now());
        bench.edit(Gesture::Once, words::NAMING, move |build| _ = build.set_text(NAME.id.into(), &name));
    }
}

fn open(number: u32) {
    let bench = Bench::get();
    match bench.with_keeper(|keeper| keeper.take(number)) {
        Ok(Some(found)) => {
            if !found.problems.is_empty() {
                bench.tell(Notice::Damaged(found.problems));
            }
            bench.hold_again();
            bench.replace(found.build, Moment::steps(bench.with_keeper(|keeper| keeper.steps())));
        }
        Ok(None) => {}
        Err(fault) => bench.tell(Notice::NotKept(fault)),
    }
}

fn leave_visit(bench: Bench) {
    if bench.visit.with_untracked(Option::is_some) {
        bench.keep_mine();
    }
}
