//! The main path by keys alone; colours the device forces, and no motion where none is wanted; the method on a page of its own.

use crate::page::{PHONE, every_screen, screens, with_app, with_app_at};
use crate::session::Session;
use anyhow::{Result, bail, ensure};
use serde_json::json;
use thirtyfour::Key;

/// What has the focus shows it, and is in sight.
const SHOWN: &str = "(([it, style]) => it !== document.body && (style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2 || \
    (it.closest('label') && getComputedStyle(it.closest('label')).outlineStyle !== 'none')))\
    ([document.activeElement, getComputedStyle(document.activeElement)])";

async fn press(session: &Session, keys: impl Into<String>) -> Result<()> {
    session.driver.action_chain().send_keys(keys.into()).perform().await?;
    Ok(())
}

/// Goes by Tab, or back, until what matches `selector` has the focus, which shows at every step.
async fn tab_to(session: &Session, back: bool, selector: &str) -> Result<()> {
    for _ in 0..400 {
        if back {
            session.driver.action_chain().key_down(Key::Shift).send_keys(char::from(Key::Tab)).key_up(Key::Shift).perform().await?;
        } else {
            press(session, char::from(Key::Tab)).await?;
        }
        if session.value(&format!("document.activeElement.matches({})", json!(selector))).await? == json!(true) {
            ensure!(session.value(SHOWN).await? == json!(true), "the focus does not show on {selector}");
            return Ok(());
        }
    }
    bail!("no way by Tab to {selector}; it is at {}", session.string("document.activeElement.outerHTML.slice(0, 150)").await?)
}

async fn focused(session: &Session) -> Result<()> {
    let settled =
        "new Promise((done) => setTimeout(() => requestAnimationFrame(() => done(document.activeElement !== document.body)), 150))";
    ensure!(session.awaited(settled).await? == json!(true), "the focus is lost");
    Ok(())
}

#[tokio::test]
async fn the_main_path_is_walked_by_keys_alone() -> Result<()> {
    with_app("#overview", async |session, _| {
        let enter = || char::from(Key::Enter);
        // A calculator is chosen.
        tab_to(session, false, "#to-clutch").await?;
        press(session, enter()).await?;
        session.until("document.querySelector('.screen').dataset.calculator === 'clutch'").await?;
        focused(session).await?;
        // A value is changed.
        let before = session.answer().await?;
        tab_to(session, true, "[id=\"clutch.pedal-ratio\"]").await?;
        session.driver.action_chain().key_down(Key::Control).send_keys("a").key_up(Key::Control).send_keys("5.5").perform().await?;
        session.other_answer(&before).await?;
        // A tool is opened, and works.
        tab_to(session, false, "#sweep > summary").await?;
        press(session, enter()).await?;
        session.until("!!document.querySelector('#sweep .plot-sheet')").await?;
        focused(session).await?;
        // Undone, from wherever one is.
        session.driver.action_chain().key_down(Key::Control).send_keys("z").key_up(Key::Control).perform().await?;
        session.says("answer-spoken", &before).await?;
        focused(session).await?;
        // The window to send from holds the focus and gives it back.
        tab_to(session, true, "#open-send").await?;
        press(session, enter()).await?;
        session.until("document.getElementById('send').open && document.getElementById('send').contains(document.activeElement)").await?;
        tab_to(session, false, "#close-send").await?;
        press(session, enter()).await?;
        session.until("!document.getElementById('send').open && document.activeElement.id === 'open-send'").await
    })
    .await
}

/// Shapes of drawings, charts and gauges that would be seen in no other colour than the page's.
const UNSEEN: &str = "[...document.querySelectorAll('svg')].filter((it) => it.checkVisibility()).flatMap((it) => [...it.querySelectorAll('path, line, circle, text, polyline')]) \
    .map((it) => [it, getComputedStyle(it)]).filter(([, style]) => { const page = getComputedStyle(document.body).backgroundColor; \
    const seen = (colour) => colour !== 'none' && colour !== page && !/^rgba.*, 0\\)$/.test(colour); return !seen(style.stroke) && !seen(style.fill); }) \
    .filter(([it]) => !it.closest('clipPath, mask, defs') && it.getBoundingClientRect().width > 2).map(([it]) => it.outerHTML.slice(0, 100))";

#[tokio::test]
async fn forced_colours_and_no_motion_lose_nothing() -> Result<()> {
    with_app_at(PHONE, "", async |session, _| {
        let words = async || session.value("[...document.querySelectorAll('main *')].filter((it) => it.checkVisibility()).length").await;
        for screen in every_screen() {
            session.ask("Emulation.setEmulatedMedia", json!({ "features": [] })).await?;
            session.go(screen).await?;
            session.awaited("new Promise((done) => setTimeout(() => done(true), 500))").await?;
            let plain = words().await?;
            let forced = json!([{ "name": "forced-colors", "value": "active" }, { "name": "prefers-reduced-motion", "value": "reduce" }]);
            session.ask("Emulation.setEmulatedMedia", json!({ "features": forced })).await?;
            session.until("matchMedia('(forced-colors: active)').matches && matchMedia('(prefers-reduced-motion: reduce)').matches").await?;
            ensure!(words().await? == plain, "{screen} shows other things in forced colours");
            let unseen = session.value(&format!("{UNSEEN}.slice(0, 5)")).await?;
            ensure!(unseen == json!([]), "unseen on {screen} in forced colours: {unseen:#}");
            let moving = "[...document.querySelectorAll('*')].filter((it) => { const style = getComputedStyle(it); \
                return [style.transitionDuration, style.animationDuration].some((all) => all.split(', ').some((one) => parseFloat(one) > 0.001)); }) \
                .slice(0, 5).map((it) => it.outerHTML.slice(0, 100))";
            let moving = session.value(moving).await?;
            ensure!(moving == json!([]), "moves on {screen}: {moving:#}");
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn pictures_are_said_in_words_and_figures_too() -> Result<()> {
    with_app("", async |session, _| {
        for screen in screens() {
            session.go(screen).await?;
            session.until("[...document.querySelectorAll('.plot-slot')].every((it) => it.querySelector('.plot, .note'))").await?;
            session.value("document.querySelectorAll('.in-words, .plot .plot-list').forEach((it) => it.open = true)").await?;
            // Each drawing with its list, each chart with a table or a list of its points.
            session.until("[...document.querySelectorAll('.slot .drawing-sheet')].every(() => document.querySelectorAll('#drawing-in-words li').length > 1)").await?;
            session.until("[...document.querySelectorAll('.charts .plot')].every((it) => it.querySelectorAll('tbody td, .plot-list li').length > 1)").await?;
            let nameless = "[...document.querySelectorAll('svg[role=img]')].filter((it) => !it.getAttribute('aria-label')).length";
            ensure!(session.number(nameless).await? == 0.0, "a picture on {screen} has no name");
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn the_method_has_an_address_a_title_and_its_equations() -> Result<()> {
    with_app("#clutch.whole-method", async |session, _| {
        session.until("document.activeElement?.id === 'clutch.whole-method' && document.activeElement.parentElement.open").await?;
        session.until("document.querySelectorAll('.whole-method math mfrac').length > 10").await?;
        session.until("document.title.startsWith('Clutch: method, Trialfit ')").await?;
        session.says("method", "Possible: ").await?;
        session.says("method", "Margin wanted").await?;
        // Named by a link too, and by the window to send from; the title goes with it.
        session.value("void (location.hash = '1.1/show=wiring.whole-method/end')").await?;
        session.until("document.activeElement?.id === 'wiring.whole-method'").await?;
        session.until("document.title.startsWith('Wiring: method, Trialfit ')").await?;
        session.press("keep-mine").await?;
        session.press("open-send").await?;
        session.choose("send-show", "wiring.whole-method").await?;
        session.until("document.getElementById('send-link').value.endsWith('/show=wiring.whole-method/end')").await?;
        session.press("close-send").await?;
        session.go("clutch").await?;
        session.until("document.title.startsWith('Clutch · ')").await
    })
    .await
}
