//! A belt's tension by ear: a tone to compare with the plucked span's, and the tension it means.
//!
//! The tone is rich in overtones, which small loudspeakers give back where they cannot give back the note itself. Nothing
//! sounds before a press.

use super::close;
use crate::bench::{Bench, spec_of};
use crate::dom::{El, button, el, put_value, value_in};
use crate::history::Gesture;
use crate::signal::{State, memo};
use crate::table::{row_name, rows_of};
use crate::words;
use crate::working::working;
use leptos::prelude::*;
use trialfit_core::calculators::front_drive::{PULLEYS, by_ear::Plucked};
use trialfit_core::quantity::unit::HZ;
use trialfit_core::quantity::{Force, Frequency, hertz};
use trialfit_core::report::Unknown;
use trialfit_core::show;
use trialfit_core::spec::{Place, RowId};
use web_sys::{AudioContext, GainNode, OscillatorNode, OscillatorType};

/// Lowest and highest tone played, Hz.
const RANGE: [f64; 2] = [20.0, 999.0];
/// How loud, and how many seconds it swells and fades.
const LOUD: f32 = 0.15;
const SWELL: f64 = 0.06;

/// A tone that sounds until it is dropped.
struct Sound {
    context: AudioContext,
    tone: OscillatorNode,
    gain: GainNode,
}

impl Sound {
    /// None where the browser makes no sound.
    fn begin(pitch: f64) -> Option<Self> {
        let context = AudioContext::new().ok()?;
        let (tone, gain) = (context.create_oscillator().ok()?, context.create_gain().ok()?);
        tone.set_type(OscillatorType::Sawtooth);
        tone.frequency().set_value(pitch as f32);
        gain.gain().set_value(0.0);
        _ = gain.gain().linear_ramp_to_value_at_time(LOUD, context.current_time() + SWELL);
        tone.connect_with_audio_node(&gain).ok()?;
        gain.connect_with_audio_node(&context.destination()).ok()?;
        tone.start().ok()?;
        Some(Self { context, tone, gain })
    }

    fn turn(&self, pitch: f64) {
        _ = self.tone.frequency().set_target_at_time(pitch as f32, self.context.current_time(), SWELL / 4.0);
    }
}

impl Drop for Sound {
    fn drop(&mut self) {
        let end = self.context.current_time() + SWELL;
        _ = self.gain.gain().set_target_at_time(0.0, self.context.current_time(), SWELL / 4.0);
        _ = self.tone.stop_with_when(end);
        // Once it has faded.
        let context = self.context.clone();
        gloo_timers::callback::Timeout::new(200, move || _ = context.close()).forget();
    }
}

/// What there is to do and see; `place` is the tension of each rib.
pub(super) fn tone(place: Place) -> Vec<El> {
    let bench = Bench::get();
    let rows = rows_of(PULLEYS);
    let picked = State::new(rows.with_untracked(|rows| rows.first().copied()));
    let span = memo(move || {
        let row = rows.with(|rows| rows.iter().position(|row| Some(*row) == picked.get())).unwrap_or(0);
        bench.report().with(|report| Plucked::of(report, row))
    });
    let begins = move || span.get_untracked().map_or(RANGE[0], |span| span.wanted()[0].in_hertz().round().clamp(RANGE[0], RANGE[1]));
    let pitch = State::new(begins());
    let sound = StoredValue::new_local(None::<Sound>);
    let (sounds, mute) = (State::new(false), State::new(false));
    let tune = move |to: f64| {
        pitch.set(to.clamp(RANGE[0], RANGE[1]));
        sound.with_value(|sound| _ = sound.as_ref().map(|sound| sound.turn(pitch.get_untracked())));
    };
    let play = move || {
        let begun = if sounds.get_untracked() { None } else { Sound::begin(pitch.get_untracked()) };
        mute.set(begun.is_none() && !sounds.get_untracked());
        sounds.set(begun.is_some());
        sound.set_value(begun);
    };

    let name = move |at: usize, rows: &[RowId]| {
        let next = rows.get((at + 1) % rows.len().max(1)).copied().unwrap_or(rows[at]);
        words::span(&row_name(PULLEYS, rows[at]), &row_name(PULLEYS, next))
    };
    let option = move |at: usize, rows: &[RowId]| el("option").set("value", &rows[at].0.to_string()).text(&name(at, rows));
    let spans = el("p").class("asked").child(el("label").set("for", "measure.span").text(words::PLUCK)).child(
        el("select")
            .id("measure.span")
            .many(move || rows.with(|rows| (0..rows.len()).map(|at| option(at, rows)).collect()))
            .value(move || picked.get().map(|row| row.0.to_string()).unwrap_or_default())
            .on("change", move |event| {
                picked.set(value_in(&event).parse().ok().map(RowId));
                tune(begins());
            }),
    );
    let number = |by: f64| {
        let label = if by < 0.0 { format!("−{}", -by) } else { format!("+{by}") };
        button("", &format!("measure.by{by}"))
            .set("aria-label", &words::hertz(&label))
            .text(&label)
            .on_press(move || tune(pitch.get_untracked() + by))
    };
    let slider = el("input")
        .class("slider")
        .id("measure.pitch")
        .set("type", "range")
        .set("min", &RANGE[0].to_string())
        .set("max", "400")
        .set("step", "1")
        .set("aria-label", words::TONE)
        .bind("aria-valuetext", move || Some(words::hertz(&pitch.get().to_string())))
        .value(move || pitch.get().to_string())
        .on("input", move |event| {
            if let Ok(to) = value_in(&event).parse() {
                tune(to);
            }
            put_value(&event, &pitch.get_untracked().to_string());
        });
    let act = move || if sounds.get() { words::STOP } else { words::PLAY }.to_owned();
    let big = button("watch", "measure.play")
        .set("autofocus", "")
        .flag("aria-pressed", move || sounds.get())
        .child(el("b").says(act))
        .child(el("span").class("time").says(move || words::hertz(&pitch.get().to_string())))
        .on_press(play);
    vec![
        el("p").class("help").text(words::TONE_HELP),
        spans,
        el("p").id("measure.wanted").says(move || span.with(|span| wanted(span.as_ref()))),
        big,
        el("p").class("problem").says(move || if mute.get() { words::NO_SOUND.to_owned() } else { String::new() }),
        el("p").class("nudges").children([-10.0, -1.0, 1.0, 10.0].map(number)),
        slider,
        el("div").maybe(move || Some(means(place, span.get().ok()?, hertz(pitch.get())))),
    ]
}

fn said(tone: Frequency) -> String {
    show::answer(tone.si(), HZ, 3).number
}

fn wanted(span: Result<&Plucked, &Unknown>) -> String {
    match span {
        Ok(span) => words::wanted_tone(span.wanted().map(said), span.least().ok().map(said)),
        Err(why) => Bench::get().report().with(|report| why.reason(report.layout())),
    }
}

/// The tension such a tone means, how it comes about, and the way to take it.
fn means(place: Place, span: Plucked, tone: Frequency) -> El {
    let bench = Bench::get();
    let (force, lines) = span.tension(tone);
    // As fine as an ear is: a newton.
    let force = Force::from_si(force.si().round());
    let each = show::cell(spec_of(place), force.si(), bench.system()).to_string();
    let take = button("", "measure.take").text(&words::take_value(&each)).on_press(move || {
        bench.set(Gesture::Once, place, force.si());
        close();
    });
    el("div")
        .class("found")
        .child(el("p").id("measure.found").text(&words::tone_means(&each)))
        .child(take)
        .child(el("ol").class("working").children(working(&lines, bench.system())))
}
