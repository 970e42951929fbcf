//! Units one by one: chosen in the menu, remembered, and in a link only when asked.

use crate::desk;
use crate::page::with_app;
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use trialfit_core::show::{Sort, System};

const BORE: &str = "clutch.slave-bore";
const LIMIT: &str = "clutch.effort-limit";

/// Bores in inches, efforts in pounds, the rest metric.
fn mixed() -> System {
    System::Metric.with(Sort::Bore, 1).with(Sort::Force, 2)
}

async fn choose(session: &Session, chosen: &[(&str, &str)]) -> Result<()> {
    session.press("open-menu").await?;
    session.press("units-each-title").await?;
    for (sort, way) in chosen {
        let list = session.in_sight(&format!("units-of-{sort}")).await?;
        let high = list.rect().await?.height;
        ensure!(high >= 44.0, "the list of {sort} is {high} pixels high");
        session.choose(&format!("units-of-{sort}"), way).await?;
    }
    session.press("close-menu").await?;
    session.until("!document.querySelector('dialog[open]')").await
}

/// Field, answer and drawing of the demo's clutch, a bore of 7/8 in and an effort in pounds.
async fn shows_mixed(session: &Session, link: &str) -> Result<()> {
    session.says("answer-spoken", &desk::spoken(&desk::opened(link)?, "clutch", mixed())?).await?;
    session.until(&format!("document.getElementById('{BORE}').value === '0.875'")).await?;
    let label = |key: &str| format!("document.querySelector('label[for=\"{key}\"] .unit').textContent");
    ensure!(session.string(&label(BORE)).await? == "in" && session.string(&label(LIMIT)).await? == "lbf");
    ensure!(session.string(&label("clutch.pedal-travel")).await? == "mm", "a length is no bore");
    session.until("/0\\.875\\s*in/.test(document.querySelector('.drawing').textContent)").await
}

#[tokio::test]
async fn units_are_chosen_one_by_one_and_remembered() -> Result<()> {
    with_app("#clutch", async |session, _| {
        choose(session, &[("bore", "1"), ("force", "2")]).await?;
        shows_mixed(session, "1.1/end").await?;
        // Bare numbers are of those units, and the build holds what they mean: 30 lbf are 133.4466 N (NIST SP 811, from memory).
        session.type_in(LIMIT, "30").await?;
        session.type_in(BORE, "0.75").await?;
        let kept = desk::kept(session.kept_text("trialfit.build.1").await?)?;
        ensure!(kept == desk::opened("1.1/clutch.slave-bore=19.05/clutch.effort-limit=30lbf/end")?, "another build is kept");
        session.press("undo").await?;
        session.reload().await?;
        shows_mixed(session, "1.1/clutch.effort-limit=30lbf/end").await?;
        session.press("open-menu").await?;
        ensure!(session.words("units-each-title").await? == "One by one: mixed");
        session.press("units-metric").await?;
        session.press("close-menu").await?;
        session.says("answer-spoken", &desk::answer("1.1/clutch.effort-limit=30lbf/end", "clutch")?).await
    })
    .await
}

#[tokio::test]
async fn a_link_brings_units_only_when_asked_and_for_the_visit_alone() -> Result<()> {
    let mut with_units = String::new();
    with_app("#clutch", async |session, _| {
        choose(session, &[("bore", "1"), ("force", "2")]).await?;
        session.press("open-send").await?;
        let sent = session.field("send-link").await?;
        ensure!(!sent.contains("units") && sent.ends_with("/end"), "{sent}");
        session.press("send-units").await?;
        session.until("document.getElementById('send-link').value.includes('/units=metric.bore-in.force-lbf/')").await?;
        with_units = session.field("send-link").await?.split_once('#').context("no fragment")?.1.to_owned();
        Ok(())
    })
    .await?;
    // Another browser, which prefers feet and pounds.
    with_app("#clutch", async |session, url| {
        session.press("open-menu").await?;
        session.press("units-imperial").await?;
        session.press("close-menu").await?;
        let kept = session.kept_text("trialfit.settings").await?;
        session.start(&format!("{url}#{with_units}")).await?;
        session.go("clutch").await?;
        shows_mixed(session, "1.1/end").await?;
        session.says("visit-units", "units of the link").await?;
        ensure!(session.kept_text("trialfit.settings").await? == kept, "the link wrote over the units preferred");
        // One's own on request.
        session.press("my-units").await?;
        let own = desk::spoken(&desk::opened("1.1/end")?, "clutch", System::Imperial)?;
        session.says("answer-spoken", &own).await?;
        session.until("!document.getElementById('visit-units') && !!document.getElementById('visit')").await?;
        session.press("keep-mine").await?;
        session.says("answer-spoken", &own).await?;
        ensure!(session.kept_text("trialfit.settings").await? == kept);

        // Damaged units are told, and the rest opens in one's own.
        session.start(&format!("{url}#1.1/clutch.slave-bore=19.05/units=furlongs/show=clutch/end")).await?;
        session.says("visit-problems", "“furlongs”").await?;
        session.says("answer-spoken", &desk::spoken(&desk::opened("1.1/clutch.slave-bore=19.05/end")?, "clutch", System::Imperial)?).await
    })
    .await
}

#[tokio::test]
async fn a_wire_is_typed_and_told_by_its_gauge() -> Result<()> {
    with_app("#wiring", async |session, _| {
        choose(session, &[("wire", "1")]).await?;
        let size = "wiring.starter-size";
        session.go(size).await?;
        // 35 mm² is no gauge: it keeps its unit in the field.
        ensure!(session.field(size).await? == "35 mm²");
        session.type_in(size, "2/0").await?;
        let kept = desk::kept(session.kept_text("trialfit.build.1").await?)?;
        // ASTM B258, from memory.
        ensure!(kept == desk::opened("1.1/wiring.starter-size=67.430882/end")?, "2/0 AWG is another area");
        session.type_in(size, "2.5").await?;
        session.says(&format!("{size}.note"), "is no American gauge").await?;
        ensure!(desk::kept(session.kept_text("trialfit.build.1").await?)? == kept, "what was refused is kept");
        Ok(())
    })
    .await
}
