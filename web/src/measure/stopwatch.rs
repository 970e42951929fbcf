//! A stopwatch for swings, worked with one thumb: a press as it passes the middle, or one for each swing.
//!
//! Times are those of the presses themselves, by the browser's monotonic clock. Runs outlast the window and the
//! screen: they are kept on the device.

use super::close;
use crate::bench::{Bench, spec_of};
use crate::dom::{El, as_event, button, el};
use crate::field::entry::Entry;
use crate::field::number::number_input;
use crate::history::Gesture;
use crate::keep;
use crate::signal::{State, memo};
use crate::words;
use gloo_timers::callback::Interval;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;
use trialfit_core::measure::{Period, Timing, miscounted, period};
use trialfit_core::quantity::Time;
use trialfit_core::quantity::unit::S;
use trialfit_core::show;
use trialfit_core::spec::Place;
use web_sys::MouseEvent;

/// Presses closer together than this, in milliseconds, are one that bounced.
const BOUNCE: f64 = 250.0;
/// Where the two clocks differ by more than so many milliseconds, the device slept meanwhile.
const ASLEEP: f64 = 500.0;
/// Most runs kept.
const MOST: usize = 20;

/// A moment by both clocks, in milliseconds.
#[derive(Clone, Copy, PartialEq, Debug)]
struct Moment {
    steady: f64,
    day: f64,
}

/// The watch while it runs.
#[derive(Clone, Copy, PartialEq, Debug)]
struct Running {
    from: Moment,
    last: f64,
    taps: u16,
}

/// What a press did.
#[derive(Clone, Copy, PartialEq, Debug)]
enum Pressed {
    Began,
    Counted,
    Ended,
    Bounced,
    Slept,
}

/// A stopwatch and the runs it took.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Watch {
    runs: Vec<Timing>,
    running: Option<Running>,
    /// Every swing is tapped; otherwise the first and the last.
    taps: bool,
    /// When it stopped: the press that stops it may bounce too.
    stopped: f64,
}

impl Watch {
    fn press(&mut self, at: Moment, swings: u16) -> Pressed {
        let last = self.running.map_or(self.stopped, |running| running.last);
        if at.steady - last < BOUNCE && last > 0.0 {
            return Pressed::Bounced;
        }
        let Some(running) = &mut self.running else {
            self.running = Some(Running { from: at, last: at.steady, taps: 0 });
            return Pressed::Began;
        };
        (running.last, running.taps) = (at.steady, running.taps + 1);
        if self.taps && running.taps < swings {
            return Pressed::Counted;
        }
        let from = running.from;
        (self.running, self.stopped) = (None, at.steady);
        let time = at.steady - from.steady;
        if (at.day - from.day - time).abs() > ASLEEP {
            return Pressed::Slept;
        }
        if self.runs.len() == MOST {
            self.runs.remove(0);
        }
        self.runs.push(Timing { swings, time: Time::from_si(time / 1e3) });
        Pressed::Ended
    }

    /// `30x64.51 30x64.48`: what the device keeps.
    pub fn write(&self) -> String {
        self.runs.iter().map(|run| format!("{}x{}", run.swings, run.time.si())).collect::<Vec<_>>().join(" ")
    }

    /// As far as it makes sense.
    pub fn read(text: &str) -> Self {
        let run = |run: &str| {
            let (swings, time) = run.split_once('x')?;
            let (swings, time) = (swings.parse().ok().filter(|&swings| swings > 0)?, time.parse::<f64>().ok()?);
            (time.is_finite() && time > 0.0).then(|| Timing { swings, time: Time::from_si(time) })
        };
        Self { runs: text.split(' ').filter_map(run).take(MOST).collect(), ..Self::default() }
    }
}

/// What there is to do and see; `count`, `time` and `doubt` are the inputs it gives.
pub(super) fn stopwatch(count: Place, time: Place, doubt: Place) -> Vec<El> {
    let bench = Bench::get();
    let watch = bench.watch;
    // None counted yet is no number of them.
    let swings = memo(move || bench.report().with(|report| report.value(count)).map_or(0, |count| count as u16));
    let running = memo(move || watch.with(|watch| watch.running));
    let tapping = memo(move || watch.with(|watch| watch.taps));
    let status = State::new(String::new());
    let press = move |steady: f64| {
        if swings.get_untracked() == 0 {
            return status.set(words::COUNT_FIRST.to_owned());
        }
        let at = Moment { steady, day: js_sys::Date::now() };
        let what = watch.update(|watch| watch.press(at, swings.get_untracked()));
        match what {
            Pressed::Ended => {
                keep(watch);
                let last = watch.with_untracked(|watch| watch.runs.last().map(|run| (watch.runs.len(), seconds(run.time, 2))));
                status.set(last.map(|(at, time)| words::run(at, &time)).unwrap_or_default());
            }
            Pressed::Began => status.set(String::new()),
            Pressed::Slept => status.set(words::SLEPT.to_owned()),
            Pressed::Counted | Pressed::Bounced => {}
        }
    };

    let entry = Entry::of(count);
    let counted = el("p")
        .class("asked")
        .child(el("label").set("for", "measure.count").text(spec_of(count).label))
        .children(entry.map(|entry| number_input(entry, "measure.count", "measure.count-note")))
        .child(el("span").class("note").id("measure.count-note").says(move || entry.and_then(Entry::problem).unwrap_or_default()));
    let way = |id: &str, label: &str, taps: bool| {
        let radio =
            el("input").set("type", "radio").set("name", "measure.way").id(id).prop("checked", move || (tapping.get() == taps).into());
        let radio = radio.on("change", move |_| {
            watch.update(|watch| (watch.taps, watch.running) = (taps, None));
        });
        el("label").class("chip").child(radio).child(el("span").text(label))
    };
    let ways = el("fieldset")
        .class("chips")
        .child(el("legend").class("apart").text(words::PRESSES))
        .child(way("measure.ends", words::FIRST_AND_LAST, false))
        .child(way("measure.taps", words::EVERY_SWING, true));
    let how = el("p").class("help").says(move || if tapping.get() { words::TAP_HELP } else { words::COUNT_HELP }.to_owned());
    let again = button("quiet", "measure.again")
        .bind("hidden", move || running.get().is_none().then(String::new))
        .text(words::START_AGAIN)
        .on_press(move || watch.update(|watch| watch.running = None));
    vec![
        how,
        ways,
        counted,
        big_button(press, running, swings, tapping),
        el("p").child(again),
        el("p").class("note").id("measure.status").set("role", "status").says(move || status.get()),
        el("div").maybe(move || proposal(watch, swings.get(), [count, time, doubt])),
        el("ol").class("runs").many(move || runs(watch)),
    ]
}

type Ran = crate::signal::Memo<Option<Running>>;

/// Pressed by a finger as it goes down, which is sooner and more even than as it comes up; by keys and readers as any button.
fn big_button(press: impl Fn(f64) + 'static, running: Ran, swings: crate::signal::Memo<u16>, tapping: crate::signal::Memo<bool>) -> El {
    let now = State::new(0.0);
    let clock = Interval::new(100, move || {
        if running.with_untracked(Option::is_some) {
            now.set(steady());
        }
    });
    StoredValue::new_local(clock);
    let time = move || {
        let running = running.get()?;
        // Not before the press: the clock ticks a little behind it.
        Some(words::elapsed((now.get().max(running.from.steady) - running.from.steady) / 1e3))
    };
    let act = move || match running.get() {
        None => words::START.to_owned(),
        Some(running) if tapping.get() => words::tap(running.taps, swings.get()),
        Some(_) => words::stop_after(swings.get()),
    };
    let press = Rc::new(press);
    let by_finger = press.clone();
    let down = Rc::new(Cell::new(false));
    let (went_down, called_off) = (down.clone(), down.clone());
    button("watch", "measure.watch")
        .set("autofocus", "")
        .child(el("b").says(act))
        .child(el("span").class("time").set("aria-hidden", "true").says(move || time().unwrap_or_default()))
        .on("pointerdown", move |event| {
            if as_event::<MouseEvent>(&event).button() == 0 {
                went_down.set(true);
                by_finger(event.time_stamp());
            }
        })
        .on("pointercancel", move |_| called_off.set(false))
        .on("click", move |event| {
            // A key's or a voice's has no pointer; one that went down here may have left without a click.
            if !down.replace(false) || as_event::<MouseEvent>(&event).detail() == 0 {
                press(event.time_stamp());
            }
        })
}

fn steady() -> f64 {
    web_sys::window().and_then(|window| window.performance()).map_or(0.0, |clock| clock.now())
}

fn keep(watch: State<Watch>) {
    // What cannot be kept is still on the screen.
    _ = Bench::get().with_keeper(|keeper| keeper.keep_text(keep::WATCH, &watch.with_untracked(Watch::write)));
}

fn seconds(time: Time, decimals: usize) -> String {
    format!("{:.decimals$} s", time.si())
}

fn runs(watch: State<Watch>) -> Vec<El> {
    let run = |(at, run): (usize, &Timing)| {
        let what = words::run(at + 1, &seconds(run.time, 2));
        let leave = button("quiet", &format!("measure.leave-{at}"))
            .set("aria-label", &words::act_of(words::LEAVE_OUT, &what))
            .text(words::LEAVE_OUT)
            .on_press(move || {
                watch.update(|watch| {
                    if at < watch.runs.len() {
                        watch.runs.remove(at);
                    }
                });
                keep(watch);
                crate::page::focus_later("measure.watch".into());
            });
        el("li").child(el("span").text(&what).text(&words::of_swings(run.swings))).child(leave)
    };
    watch.with(|watch| watch.runs.iter().enumerate().map(run).collect())
}

/// What the runs come to for as many swings as are counted now, and the way to take it.
fn proposal(watch: State<Watch>, swings: u16, [count, time, doubt]: [Place; 3]) -> Option<El> {
    let (found, wrong) = watch.with(|watch| (period(&watch.runs), miscounted(&watch.runs)));
    let Period { mean, doubt: off } = found.filter(|_| swings > 0)?;
    let whole = |period: Time| period * f64::from(swings);
    let (value, off) = (whole(mean), off.map(whole));
    // As fine as the time is typed: a hundredth of a second; the doubt no finer than that either.
    let rounded = |time: Time| Time::from_si((time.si() * 100.0).round() / 100.0);
    let (value, off) = (rounded(value), off.map(|off| rounded(off).max(Time::from_si(0.01))));
    let take = move || {
        let bench = Bench::get();
        bench.edit(Gesture::Once, spec_of(time).label, move |build| {
            _ = build.set(count, f64::from(swings));
            _ = build.set(time, value.si());
            if let Some(off) = off {
                _ = build.set(doubt, off.si());
            }
        });
        close();
    };
    let period = show::answer(mean.si(), S, 4).to_string();
    let says = words::timed(&seconds(value, 2), swings, off.map(|off| seconds(off, 2)).as_deref(), &period);
    let found = el("div").class("found").child(el("p").id("measure.found").text(&says));
    let found = found.children(wrong.map(|at| el("p").class("problem").text(&words::miscounted(at + 1))));
    Some(found.child(button("", "measure.take").text(&words::take_value(&seconds(value, 2))).on_press(take)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(steady: f64) -> Moment {
        Moment { steady, day: 1e12 + steady }
    }

    #[test]
    fn first_and_last_press_make_a_run() {
        let mut watch = Watch::default();
        assert_eq!(watch.press(at(1000.0), 30), Pressed::Began);
        assert_eq!(watch.press(at(1100.0), 30), Pressed::Bounced, "a glove trembles");
        assert_eq!(watch.press(at(65_500.0), 30), Pressed::Ended);
        assert_eq!(watch.press(at(65_600.0), 30), Pressed::Bounced);
        assert_eq!(watch.runs, [Timing { swings: 30, time: Time::from_si(64.5) }]);
    }

    #[test]
    fn every_swing_is_counted_to_the_last() {
        let mut watch = Watch { taps: true, ..Watch::default() };
        let pressed: Vec<Pressed> = [0.5, 2.5, 4.5, 6.5].map(|seconds| watch.press(at(seconds * 1e3), 3)).into();
        assert_eq!(pressed, [Pressed::Began, Pressed::Counted, Pressed::Counted, Pressed::Ended]);
        assert_eq!(watch.runs, [Timing { swings: 3, time: Time::from_si(6.0) }]);
    }

    #[test]
    fn a_run_through_which_the_device_sleeps_is_not_kept() {
        let mut watch = Watch::default();
        watch.press(at(1000.0), 30);
        assert_eq!(watch.press(Moment { steady: 40_000.0, day: 1e12 + 65_000.0 }, 30), Pressed::Slept);
        assert!(watch.runs.is_empty());
    }

    #[test]
    fn runs_are_kept_and_nonsense_is_not_read() {
        let mut watch = Watch::default();
        watch.press(at(1000.0), 30);
        watch.press(at(65_512.0), 30);
        assert_eq!(Watch::read(&watch.write()).runs, watch.runs);
        assert_eq!(Watch::read("0x3 x 30x-1 30xNaN 30x inf").runs, []);
    }
}
