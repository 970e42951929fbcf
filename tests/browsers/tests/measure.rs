//! Numbers taken from the car: the stopwatch, the tone, the walk from point to point, and the sketches.

use crate::desk;
use crate::page::with_app;
use crate::session::Session;
use anyhow::{Result, ensure};
use std::time::{Duration, Instant};

/// Opens what stands under a field, and its measurement.
async fn measure(session: &Session, key: &str) -> Result<()> {
    session.press(&format!("{key}.more")).await?;
    session.press(&format!("{key}.measure")).await?;
    session.until("document.getElementById('measure').open").await
}

/// Times one run of about a second; gives what passed by the test's own clock, at least and at most.
async fn run(session: &Session) -> Result<(f64, f64)> {
    // A press right after another is taken for one that bounced.
    tokio::time::sleep(Duration::from_millis(400)).await;
    let before = Instant::now();
    session.press("measure.watch").await?;
    session.until("/Stop/.test(document.getElementById('measure.watch').textContent)").await?;
    let began = Instant::now();
    // What is measured is time itself.
    tokio::time::sleep(Duration::from_millis(1000)).await;
    let least = began.elapsed().as_secs_f64();
    session.press("measure.watch").await?;
    session.until("/Start/.test(document.getElementById('measure.watch').textContent)").await?;
    Ok((least, before.elapsed().as_secs_f64()))
}

#[tokio::test]
async fn a_swing_is_timed_and_taken_as_one_step() -> Result<()> {
    with_app("#flywheel", async |session, _| {
        measure(session, "flywheel.swing-time").await?;
        session.type_in("measure.count", "1").await?;
        let before = session.answer().await?;
        let (first, second) = (run(session).await?, run(session).await?);
        session.until("document.querySelectorAll('.runs li').length === 2").await?;
        // What was timed outlasts the window and a reload.
        session.press("close-measure").await?;
        session.until("!document.getElementById('measure').open").await?;
        session.reload().await?;
        measure(session, "flywheel.swing-time").await?;
        session.until("document.querySelectorAll('.runs li').length === 2").await?;
        session.press("measure.take").await?;
        session.until("!document.getElementById('measure').open").await?;
        let time: f64 = session.field("flywheel.swing-time").await?.parse()?;
        let (least, most) = ((first.0 + second.0) / 2.0, (first.1 + second.1) / 2.0);
        ensure!(time >= least - 0.01 && time <= most + 0.01, "{time} s of {least} to {most} s");
        ensure!(session.field("flywheel.time-doubt").await? != "0.3", "the scatter was not taken");
        // Count, time and its doubt go back together; the count typed before is a step of its own.
        session.press("undo").await?;
        session.until("document.getElementById('flywheel.swing-time').value === '64.5'").await?;
        session.until("document.getElementById('flywheel.time-doubt').value === '0.3'").await?;
        ensure!(session.answer().await? == before);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_run_of_nobody_knows_how_many_swings_is_not_begun() -> Result<()> {
    with_app("#1.1/of-the-car=gone/show=flywheel/end", async |session, _| {
        session.press("take-theirs").await?;
        measure(session, "flywheel.swing-time").await?;
        session.press("measure.watch").await?;
        session.says("measure.status", "Enter first how many swings you count.").await?;
        session.type_in("measure.count", "1").await?;
        run(session).await?;
        session.until("document.querySelectorAll('.runs li').length === 1").await
    })
    .await
}

#[tokio::test]
async fn every_swing_is_tapped_by_keys() -> Result<()> {
    with_app("#flywheel", async |session, _| {
        measure(session, "flywheel.swing-time").await?;
        session.type_in("measure.count", "2").await?;
        session.value("document.getElementById('measure.taps').click()").await?;
        let watch = session.element("measure.watch").await?;
        for expected in ["0 of 2", "1 of 2", "Start"] {
            watch.send_keys(thirtyfour::Key::Enter + "").await?;
            session.until(&format!("document.querySelector('#measure .watch b').textContent === '{expected}'")).await?;
            tokio::time::sleep(Duration::from_millis(400)).await;
        }
        session.until("/Run 1/.test(document.getElementById('measure.status').textContent)").await?;
        session.press("measure.leave-0").await?;
        session.until("!document.querySelector('.runs li') && document.activeElement.id === 'measure.watch'").await
    })
    .await
}

#[tokio::test]
async fn a_bonnet_is_measured_point_by_point() -> Result<()> {
    with_app("#bonnet-line", async |session, _| {
        session.press("bonnet-line.bonnet.measure").await?;
        session.until("document.getElementById('measure').open").await?;
        ensure!(session.words("measure.progress").await?.starts_with("1 of 20."));
        session.until("document.getElementById('measure.back').ariaDisabled === 'true'").await?;
        session.until("!!document.querySelector('#measure .still .ink-changing')").await?;
        for (at, number) in [(1, "-310"), (2, "425"), (3, "47 cm")] {
            session.until(&format!("document.getElementById('measure.progress').textContent.startsWith('{at} of 20.')")).await?;
            session.enter("measure.value", number).await?;
            session.driver.active_element().await?.send_keys(thirtyfour::Key::Enter + "").await?;
        }
        session.until("document.getElementById('measure.progress').textContent.startsWith('4 of 20.')").await?;
        session.until("document.activeElement.id === 'measure.value'").await?;
        // What cannot stand there is told, and the last good number stays.
        session.enter("measure.value", "tall").await?;
        session.until("document.getElementById('measure.value').ariaInvalid === 'true'").await?;
        session.press("measure.back").await?;
        session.until("document.getElementById('measure.value').value === '470'").await?;
        session.press("close-measure").await?;
        session.until("!document.getElementById('measure').open").await?;
        session
            .says(
                "answer-spoken",
                &desk::answer(
                    "1.1/bonnet-line.bonnet.1.along=-310/bonnet-line.bonnet.1.left=425/bonnet-line.bonnet.1.middle=470/end",
                    "bonnet-line",
                )?,
            )
            .await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_tone_is_turned_until_it_is_the_belts() -> Result<()> {
    // What sounds, without a loudspeaker: the page's own oscillator and its state.
    const HEARD: &str = "window.sounding = []; const make = AudioContext.prototype.createOscillator; \
        AudioContext.prototype.createOscillator = function () { const tone = make.call(this); \
        window.sounding.push([this, tone]); return tone; };";
    with_app("#front-drive", async |session, _| {
        session.value(&format!("void (() => {{ {HEARD} }})()")).await?;
        measure(session, "front-drive.rib-tension").await?;
        // Span, ribs and mass of the demo: f = √(T/m)/2L, from 100 N to 140 N a rib of 22 g/m.
        let report = trialfit_tests::evaluated(&trialfit_core::build::Build::default());
        let span = |row| report.cell(trialfit_core::calculators::front_drive::SPAN, row).map(|span| span.si());
        let tone = |newtons: f64, length: f64| (newtons / 0.022).sqrt() / (2.0 * length);
        let length = span(0).map_err(|_| anyhow::anyhow!("no span"))?;
        let wanted = session.words("measure.wanted").await?;
        let figures: Vec<f64> = wanted.split(' ').filter_map(|word| word.parse().ok()).collect();
        ensure!(
            (figures[0] / tone(100.0, length) - 1.0).abs() < 0.006 && (figures[1] / tone(140.0, length) - 1.0).abs() < 0.006,
            "{wanted}"
        );
        ensure!(session.value("window.sounding.length === 0").await? == true, "it sounded before a press");

        let shown = "parseFloat(document.querySelector('#measure .time').textContent)";
        let begun = session.number(shown).await?;
        ensure!((begun - tone(100.0, length)).abs() <= 1.0, "{begun}");
        session.press("measure.play").await?;
        session.until("window.sounding.length === 1 && document.getElementById('measure.play').ariaPressed === 'true'").await?;
        session.press("measure.by10").await?;
        session.press("measure.by-1").await?;
        let turned = session.number(shown).await?;
        ensure!(turned == begun + 9.0, "{turned} after {begun}");
        session.until(&format!("Math.abs(window.sounding[0][1].frequency.value - {turned}) < 0.5")).await?;
        // m·(2·L·f)² of each rib, taken as one step; closing the window ends the tone.
        let velocity = 2.0 * length * turned;
        let expected = 0.022 * velocity * velocity;
        session.press("measure.take").await?;
        session.until("!document.getElementById('measure').open && window.sounding[0][0].state === 'closed'").await?;
        let taken: f64 = session.field("front-drive.rib-tension").await?.parse()?;
        ensure!((taken - expected).abs() <= 0.51, "{taken} N taken, {expected} N meant");
        session.press("undo").await?;
        session.until("document.getElementById('front-drive.rib-tension').value === '100'").await
    })
    .await
}

#[tokio::test]
async fn a_lever_is_named_on_its_sketch() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.press("clutch.pedal-ratio.more").await?;
        let sketch = "document.querySelector('[data-key=\"clutch.pedal-ratio\"] .still')";
        session.until(&format!("{sketch}?.querySelectorAll('.ink-words.ink-changing').length === 2")).await?;
        session.until(&format!("/A, to the pad/.test({sketch}.querySelector('desc').textContent)")).await?;
        // The ratio of two lengths, as they were read off the tape.
        session.type_in("clutch.pedal-ratio", "310/52").await?;
        session.says("answer-spoken", &desk::answer("1.1/clutch.pedal-ratio=5.961538461538462/end", "clutch")?).await
    })
    .await
}
