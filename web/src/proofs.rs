//! What to do and prove on the car itself, ticked as it is done. A tick is kept with the figures it was made at: when a change
//! of the build moves them, it no longer holds.

use crate::bench::{Bench, Notice, spec_of};
use crate::browser::today;
use crate::dom::{El, Make, button, el, item};
use crate::figure::pieces;
use crate::gauge;
use crate::language;
use crate::listing::print;
use crate::page::{car_name, version};
use crate::signal::{Memo, State, memo};
use crate::words;
use litemap::LiteMap;
use trialfit_core::calculators::ALL;
use trialfit_core::proofs::{Due, Stage, proofs as due_of};
use trialfit_core::spec::{Place, Verdict};

/// What is ticked, by its key: the figures it was ticked at.
type Ticks = LiteMap<String, String>;

/// As the device keeps it: a line each, key and figures with a tab between.
fn read(text: &str) -> Ticks {
    let mut ticks = Ticks::new();
    for (key, figures) in text.lines().filter_map(|line| line.split_once('\t')) {
        ticks.insert(key.to_owned(), figures.to_owned());
    }
    ticks
}

fn write(ticks: &Ticks) -> String {
    ticks.iter().map(|(key, figures)| format!("{key}\t{figures}\n")).collect()
}

/// What is ticked of the car on the bench.
#[derive(Clone, Copy)]
struct Done {
    ticks: Memo<Ticks>,
    /// Those of a car, by its number, that the device would not keep.
    unkept: State<Option<(u32, Ticks)>>,
    turned: State<()>,
}

impl Done {
    fn of_the_car() -> Self {
        let bench = Bench::get();
        let (unkept, turned) = (State::<Option<(u32, Ticks)>>::default(), State::new(()));
        let ticks = memo(move || {
            // Another car may be on the bench.
            bench.when_calm();
            turned.with(|()| ());
            now(unkept)
        });
        Self { ticks, unkept, turned }
    }

    fn has(self, due: &Due) -> bool {
        self.ticks.with(|ticks| holds(ticks, due))
    }

    /// The figures it was ticked at, where they are others now.
    fn once(self, due: &Due) -> Option<String> {
        self.ticks.with(|ticks| ticks.get(&due.key).filter(|at| **at != due.figures).cloned())
    }

    fn turn(self, due: &Due) {
        // Another tab may have ticked something meanwhile.
        let mut ticks = now(self.unkept);
        if holds(&ticks, due) {
            ticks.remove(&due.key);
        } else {
            ticks.insert(due.key.clone(), due.figures.clone());
        }
        let bench = Bench::get();
        let kept = bench.with_keeper(|keeper| keeper.keep_done(&write(&ticks)));
        self.unkept.set(kept.is_err().then(|| (bench.with_keeper(|keeper| keeper.number()), ticks)));
        if let Err(fault) = kept {
            bench.tell(Notice::NotKept(fault));
        }
        self.turned.set(());
    }
}

fn now(unkept: State<Option<(u32, Ticks)>>) -> Ticks {
    Bench::get().with_keeper(|keeper| {
        let here = unkept.with_untracked(|unkept| unkept.clone().filter(|(number, _)| *number == keeper.number()));
        here.map_or_else(|| read(&keeper.done()), |(_, ticks)| ticks)
    })
}

fn holds(ticks: &Ticks, due: &Due) -> bool {
    ticks.get(&due.key).is_some_and(|figures| *figures == due.figures)
}

/// The list, to tick and to print.
pub fn proofs() -> El {
    let bench = Bench::get();
    let done = Done::of_the_car();
    let all = memo(move || {
        bench.when_calm();
        bench.look_now(due_of)
    });
    // A car that came by link is nobody's to tick yet.
    let own = memo(move || bench.visit.with(Option::is_none));
    let count = move || all.with(|all| words::proofs_done(all.iter().filter(|due| done.has(due)).count(), all.len()));
    let stage = |stage: Stage| {
        let lines = move || all.with(|all| all.iter().filter(|due| due.stage == stage).map(|due| line(due, done, own.get())).collect());
        [el("h3").text(stage.words()), el("ul").class("proofs").each(lines)]
    };
    el("section")
        .class("results")
        .id("proofs")
        .set("aria-labelledby", "proofs-title")
        .child(el("h2").id("proofs-title").text(words::PROOFS))
        .child(el("p").class("whose").child(car_name()).text(" · ").own(&today()).text(" · ").own(&version()))
        .child(el("p").class("help").text(words::PROOFS_HELP))
        .when(move || own.get(), move || el("p").class("found").id("proofs-done").says(count))
        .children(Stage::ALL.into_iter().flat_map(stage))
        .child(el("p").class("caution").text(words::RULES_FIRST))
        .child(el("p").class("acts").child(button("quiet", "print-proofs").text(words::PRINT_PROOFS).on_press(|| print("proofs"))))
}

fn line(due: &Due, done: Done, own: bool) -> (String, Make) {
    let due = due.clone();
    let system = Bench::get().system();
    item(format!("{due:?}{system:?}{own}"), move || {
        let whose = el("b").text(ALL[usize::from(due.calculator)].label);
        let said = el("span").child(whose).text(": ").children(pieces(&due.pieces, system));
        let mark = (due.verdict > Verdict::Near).then(|| gauge::verdict(due.verdict));
        let answer = due.answer.map(|id| answer(id.into()));
        let cautions: Vec<El> = due.cautions.iter().map(|words| el("p").class("caution").text(words)).collect();
        let acts = (mark.is_some() || answer.is_some()).then(|| el("p").class("acts").children(mark).children(answer));
        let line = el("li").set("data-proof", &due.key);
        let line = if own { ticked(line, said, due, done) } else { line.child(said) };
        line.children(cautions).children(acts)
    })
}

fn ticked(line: El, said: El, due: Due, done: Done) -> El {
    let id = format!("prove-{}", due.key);
    let (now, once, turned) = (due.clone(), due.clone(), due);
    let tick = el("input")
        .set("type", "checkbox")
        .id(&id)
        .prop("checked", move || done.has(&now).into())
        .on("change", move |_| done.turn(&turned));
    let was = move || done.once(&once).map(|at| el("p").class("note").text(&words::proved_at(&language::number(&at))));
    line.child(el("label").class("tick").set("for", &id).child(tick).child(said)).maybe(was)
}

/// Where its figure comes from.
fn answer(place: Place) -> El {
    el("a").set("href", &format!("#{}", Bench::get().key(place))).text(spec_of(place).label)
}
