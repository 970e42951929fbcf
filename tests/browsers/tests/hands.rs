//! Drawings and charts as controls: pulleys dragged, pairs of bores tapped, buttons held; each undone in one step.

use crate::desk;
use crate::page::{WIDE, with_app, with_app_at};
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use serde_json::json;
use thirtyfour::{By, Key};
use trialfit_core::build::Build;
use trialfit_core::calculators::clutch::{MASTER_BORE, SLAVE_BORE};
use trialfit_core::calculators::{ALL, front_drive};
use trialfit_core::plan::Plan;
use trialfit_core::report::Report;
use trialfit_core::show::System;

const X: &str = "front-drive.pulleys.2.x";
const Y: &str = "front-drive.pulleys.2.y";
const KEPT: &str = "trialfit.build.1";

/// The handle of a drawing with this name.
fn handle(label: &str) -> String {
    format!("document.querySelector('.drawing-handle[aria-label=\"{label}\"]')")
}

/// Where the middle of an element is on the screen, in whole pixels.
async fn middle(session: &Session, element: &str) -> Result<(f64, f64)> {
    let side = |side: &str| format!("(({element}).getBoundingClientRect().{side})");
    let x = session.number(&format!("{} + {} / 2", side("x"), side("width"))).await?;
    let y = session.number(&format!("{} + {} / 2", side("y"), side("height"))).await?;
    Ok((x.round(), y.round()))
}

/// Brings the element to the middle of the screen.
async fn bring(session: &Session, element: &str) -> Result<()> {
    session.value(&format!("void ({element}).scrollIntoView({{ block: 'center', behavior: 'instant' }})")).await.map(drop)
}

/// A finger goes down, moves or comes up.
async fn finger(session: &Session, what: &str, at: Option<(f64, f64)>) -> Result<()> {
    let points: Vec<_> = at.into_iter().map(|(x, y)| json!({ "x": x, "y": y })).collect();
    session.ask("Input.dispatchTouchEvent", json!({ "type": what, "touchPoints": points })).await.map(drop)
}

async fn tap(session: &Session, at: (f64, f64)) -> Result<()> {
    finger(session, "touchStart", Some(at)).await?;
    finger(session, "touchEnd", None).await
}

/// Pixels for a millimetre, from where two pulleys of the demo stand: crank at (0, 0), alternator 145 mm to its right.
async fn pixels_for_a_millimetre(session: &Session) -> Result<f64> {
    let left = |label: &str| format!("parseFloat({}.style.left)", handle(label));
    let apart = session.number(&format!("{} - {}", left("Move the alternator sideways"), left("Move the crank sideways"))).await?;
    Ok(apart / 145.0)
}

/// What is on the screen belongs to what is kept.
async fn answers_what_is_kept(session: &Session, calculator: &str) -> Result<Build> {
    let kept = desk::kept(session.kept_text(KEPT).await?)?;
    session.says("answer-spoken", &desk::spoken(&kept, calculator, System::Metric)?).await?;
    Ok(kept)
}

async fn stands_at(session: &Session, x: f64, y: f64) -> Result<()> {
    let near = |key: &str, value: f64| format!("Math.abs(parseFloat(document.getElementById('{key}').value) - {value}) <= 1.01");
    session.until(&format!("{} && {}", near(X, x), near(Y, y))).await
}

#[tokio::test]
async fn a_mouse_drags_a_pulley_and_the_figures_follow() -> Result<()> {
    with_app_at(WIDE, "#front-drive", async |session, _| {
        let alternator = handle("Move the alternator sideways");
        bring(session, &alternator).await?;
        let scale = pixels_for_a_millimetre(session).await?;
        let belt = "document.querySelector('[id=\"front-drive.drawn-length\"] .figure').textContent";
        let (before, drawn) = (session.string(belt).await?, session.string("document.querySelector('.drawing svg g').innerHTML").await?);
        let (x, y) = middle(session, &alternator).await?;
        let (right, down) = ((20.0 * scale).round(), (10.0 * scale).round());
        let actions = || session.driver.action_chain();
        actions().move_to(x as i64, y as i64).click_and_hold().perform().await?;
        actions().move_by_offset(right as i64 / 2, 0).perform().await?;
        session.until(&format!("{belt} !== {}", crate::page::quoted(&before))).await?;
        actions().move_by_offset(right as i64 - right as i64 / 2, down as i64).release().perform().await?;

        stands_at(session, 145.0 + right / scale, 185.0 - down / scale).await?;
        let kept = answers_what_is_kept(session, "front-drive").await?;
        let mut report = Report::new(&kept);
        Plan::default().evaluate(&kept, &mut report);
        let length = report.of(front_drive::DRAWN_LENGTH).map_err(|_| anyhow::anyhow!("no length"))?.si() * 1000.0;
        let shown: f64 =
            session.string(belt).await?.chars().filter(|letter| letter.is_ascii_digit() || *letter == '.').collect::<String>().parse()?;
        ensure!((shown - length).abs() <= 0.51, "{shown} mm shown, {length} mm worked out");
        ensure!(session.string("document.querySelector('.drawing svg g').innerHTML").await? != drawn, "the drawing stayed");
        // One drag, one step back.
        session.press("undo").await?;
        stands_at(session, 145.0, 185.0).await?;
        ensure!(session.string(belt).await? == before);
        session.until("document.getElementById('undo').ariaDisabled === 'true'").await?;
        session.press("redo").await?;
        stands_at(session, 145.0 + right / scale, 185.0 - down / scale).await
    })
    .await
}

#[tokio::test]
async fn escape_calls_a_drag_off() -> Result<()> {
    with_app_at(WIDE, "#front-drive", async |session, _| {
        let alternator = handle("Move the alternator sideways");
        bring(session, &alternator).await?;
        let answer = session.answer().await?;
        let (x, y) = middle(session, &alternator).await?;
        let actions = || session.driver.action_chain();
        actions().move_to(x as i64, y as i64).click_and_hold().move_by_offset(30, -12).perform().await?;
        session.until(&format!("document.getElementById('{X}').value !== '145'")).await?;
        actions().send_keys(Key::Escape).perform().await?;
        stands_at(session, 145.0, 185.0).await?;
        actions().move_by_offset(20, 20).release().perform().await?;
        stands_at(session, 145.0, 185.0).await?;
        ensure!(session.answer().await? == answer);
        session.until("document.getElementById('undo').ariaDisabled === 'true'").await
    })
    .await
}

#[tokio::test]
async fn a_finger_taps_a_handle_then_drags_it_one_way() -> Result<()> {
    with_app("#front-drive", async |session, _| {
        let alternator = handle("Move the alternator sideways");
        bring(session, &alternator).await?;
        let scale = pixels_for_a_millimetre(session).await?;
        let at = middle(session, &alternator).await?;
        // Untapped, a finger scrolls the page and moves no pulley.
        finger(session, "touchStart", Some(at)).await?;
        finger(session, "touchMove", Some((at.0 + 40.0, at.1))).await?;
        finger(session, "touchEnd", None).await?;
        stands_at(session, 145.0, 185.0).await?;

        bring(session, &alternator).await?;
        let at = middle(session, &alternator).await?;
        tap(session, at).await?;
        session.until("!!document.querySelector('.drawing-armed') && !!document.querySelector('.drawing-strip')").await?;
        let scrolled = session.number("scrollY").await?;
        finger(session, "touchStart", Some(at)).await?;
        for step in 1..=4 {
            finger(session, "touchMove", Some((at.0 + 5.0 * f64::from(step), at.1 + f64::from(step)))).await?;
        }
        finger(session, "touchEnd", None).await?;
        // One dimension at a time on a phone: what it set out along.
        stands_at(session, 145.0 + 20.0 / scale, 185.0).await?;
        ensure!(session.number("scrollY").await? == scrolled, "the page scrolled under the drag");
        answers_what_is_kept(session, "front-drive").await?;

        // A second finger calls it off.
        let moved = session.field(X).await?;
        let at = middle(session, &alternator).await?;
        finger(session, "touchStart", Some(at)).await?;
        finger(session, "touchMove", Some((at.0 - 8.0, at.1))).await?;
        session.until(&format!("document.getElementById('{X}').value !== '{moved}'")).await?;
        let two = json!([{ "x": at.0 - 8.0, "y": at.1, "id": 0 }, { "x": at.0 - 90.0, "y": at.1, "id": 1 }]);
        session.ask("Input.dispatchTouchEvent", json!({ "type": "touchStart", "touchPoints": two })).await?;
        session.until(&format!("document.getElementById('{X}').value === '{moved}'")).await?;
        finger(session, "touchEnd", None).await?;
        session.press("undo").await?;
        stands_at(session, 145.0, 185.0).await
    })
    .await
}

#[tokio::test]
async fn arrow_keys_nudge_a_handle() -> Result<()> {
    with_app("#front-drive", async |session, _| {
        let element = session.driver.find(By::Css(".drawing-handle[aria-label='Move the alternator sideways']")).await?;
        element.focus().await?;
        element.send_keys(Key::Right + Key::Right).await?;
        stands_at(session, 147.0, 185.0).await?;
        ensure!(session.field(X).await? == "147");
        session.until(&format!("{}.ariaValueText === '147 millimetres'", handle("Move the alternator sideways"))).await?;
        answers_what_is_kept(session, "front-drive").await?;
        element.send_keys(Key::Up + "").await?;
        session.until(&format!("document.getElementById('{Y}').value === '186'")).await?;
        session.until("document.activeElement.classList.contains('drawing-handle')").await?;
        // Each press is a step of its own.
        for (x, y) in [(147.0, 185.0), (146.0, 185.0), (145.0, 185.0)] {
            session.press("undo").await?;
            session
                .until(&format!("document.getElementById('{X}').value === '{x}' && document.getElementById('{Y}').value === '{y}'"))
                .await?;
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_pair_of_bores_is_taken_by_a_tap() -> Result<()> {
    with_app("#clutch", async |session, _| {
        let frame = "document.querySelector('.plot-choosable')";
        session.until(&format!("!!{frame}?.querySelector('.ink-good')")).await?;
        bring(session, frame).await?;
        // The pair inside every limit with the longest travel: the disc furthest right, the point furthest right.
        let discs = format!("[...{frame}.querySelectorAll('.ink-good')]");
        let furthest = format!("{discs}.reduce((one, other) => +one.getAttribute('cx') > +other.getAttribute('cx') ? one : other)");
        let build = Build::default();
        let mut report = Report::new(&build);
        let plan = Plan::default();
        plan.evaluate(&build, &mut report);
        let clutch = ALL.iter().find(|it| it.key == "clutch").context("no clutch")?;
        let charts: Vec<_> = clutch.charts.iter().filter_map(|make| make(&plan, &build, &report).ok()).collect();
        let spots = charts.iter().flat_map(|chart| &chart.spots).filter(|spot| spot.good && !spot.present && !spot.sets.is_empty());
        let expected = spots.max_by(|one, other| one.at.0.total_cmp(&other.at.0)).context("no good pair")?;

        let at = middle(session, &furthest).await?;
        tap(session, at).await?;
        session.until("document.getElementById('undo').ariaDisabled !== 'true'").await?;
        let kept = answers_what_is_kept(session, "clutch").await?;
        for (place, value) in &expected.sets {
            ensure!(kept.own_value(*place) == Some(*value), "{} was taken, {} was tapped", kept.layout().key(*place), expected.label);
        }
        session.until(&format!("document.querySelector('.plot-choice span').textContent === '{}'", expected.label)).await?;
        // Both bores come back in one step.
        session.press("undo").await?;
        session.says("answer-spoken", &desk::answer("1.1/end", "clutch")?).await?;
        let kept = desk::kept(session.kept_text(KEPT).await?)?;
        for bore in [MASTER_BORE.id, SLAVE_BORE.id] {
            ensure!(kept.own_value(bore.into()) == build.own_value(bore.into()));
        }
        // Without hitting a point: the list, and on to the next one.
        session.value("document.querySelector('.plot-choice button:last-child').click()").await?;
        session.until("document.getElementById('undo').ariaDisabled !== 'true'").await?;
        answers_what_is_kept(session, "clutch").await.map(drop)
    })
    .await
}

/// On a scrolled page too: what a tap turns is told above the choice, and nothing may scroll for it.
#[tokio::test]
async fn a_finger_that_taps_again_meets_the_same_button() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.value("void scrollTo(0, 300)").await?;
        session.until("scrollY === 300").await?;
        let at = middle(session, "document.getElementById('choice-less')").await?;
        for bore in ["20.6375", "19.05"] {
            tap(session, at).await?;
            session.until(&format!("document.getElementById('clutch.slave-bore').value === '{bore}'")).await?;
            answers_what_is_kept(session, "clutch").await?;
            session.whole().await?;
            ensure!(session.number("scrollY").await? == 300.0, "it scrolled");
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn the_choice_steps_repeats_and_is_undone_at_once() -> Result<()> {
    with_app("#clutch", async |session, _| {
        let bore = "document.getElementById('clutch.slave-bore').value";
        let stands = "document.getElementById('choice-more').getBoundingClientRect().top + scrollY";
        let before = session.number(stands).await?;
        session.press("choice-more").await?;
        session.until(&format!("{bore} === '23.8125'")).await?;
        answers_what_is_kept(session, "clutch").await?;
        // Whatever that turned has been told too, and the choice stays under the finger.
        session.until("document.getElementById('live').textContent.includes('drags')").await?;
        let after = session.number(stands).await?;
        ensure!(f64::abs(after - before) < 1.0, "the choice moved from {before} to {after}");
        let undo = "document.getElementById('undo').getBoundingClientRect().top + scrollY";
        let before = session.number(undo).await?;
        session.press("undo").await?;
        session.until(&format!("{bore} === '22.225'")).await?;
        session.until("!document.getElementById('redo').hidden").await?;
        session.whole().await?;
        ensure!(session.number(undo).await? == before, "a second tap on undo would meet something else");
        // Held, it goes on: three sizes down, and one step back.
        let less = session.element("choice-less").await?;
        session.driver.action_chain().click_and_hold_element(&less).perform().await?;
        session.until(&format!("{bore} === '19.05'")).await?;
        session.driver.action_chain().release().perform().await?;
        session.press("undo").await?;
        session.until(&format!("{bore} === '22.225'")).await?;
        session.until("document.getElementById('undo').ariaDisabled === 'true'").await?;
        // The thumb by keys, and by hand.
        let slider = session.element("choice-slider").await?;
        slider.send_keys(Key::Right + "").await?;
        session.until(&format!("{bore} === '23.8125'")).await?;
        session.until("document.getElementById('choice-slider').getAttribute('aria-valuetext').includes('23.8')").await
    })
    .await
}
