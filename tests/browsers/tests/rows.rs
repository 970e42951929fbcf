//! Tables on a phone: rows come, go and move; a link may carry two hundred.

use crate::desk;
use crate::page::with_app;
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use trialfit_core::build::Build;
use trialfit_core::calculators::{car, wiring};
use trialfit_core::share::link::{self, Link};
use trialfit_core::show::System;
use trialfit_core::spec::Place;

/// Where the page keeps the first car.
const KEPT: &str = "trialfit.build.1";

/// The page says of a calculator what core says of the build that is kept.
async fn agrees(session: &Session, calculator: &str) -> Result<()> {
    session.kept().await?;
    let kept = desk::kept(session.kept_text(KEPT).await?)?;
    session.says("answer-spoken", &desk::spoken(&kept, calculator, System::Metric)?).await
}

async fn count(session: &Session, table: &str) -> Result<f64> {
    session.number(&format!("document.querySelectorAll('[data-key=\"{table}\"] > .rows > li').length")).await
}

#[tokio::test]
async fn a_circuit_is_added_filled_in_and_removed() -> Result<()> {
    with_app("#wiring", async |session, _| {
        let before = count(session, "wiring.circuits").await?;
        session.press("wiring.circuits.add").await?;
        session
            .until(&format!("document.querySelectorAll('[data-key=\"wiring.circuits\"] > .rows > li').length === {}", before + 1.0))
            .await?;
        let key = session.string("document.querySelector('[data-key=\"wiring.circuits\"] > .rows > li:last-child').dataset.key").await?;
        for (field, text) in [("name", "Heated seat"), ("current", "8 A"), ("length", "2.5 m")] {
            session.type_in(&format!("{key}.{field}"), text).await?;
        }
        agrees(session, "wiring").await?;
        session.until(&format!("document.querySelector('[data-key=\"{key}\"]').textContent.includes('Heated seat')")).await?;
        // It moves up, and its number with it.
        session.press(&format!("{key}.up")).await?;
        session
            .until(&format!("document.querySelector('[data-key=\"wiring.circuits\"] > .rows > li:last-child').dataset.key !== '{key}'"))
            .await?;
        agrees(session, "wiring").await?;
        session.press(&format!("{key}.remove")).await?;
        session.until(&format!("!document.querySelector('[data-key=\"{key}\"]')")).await?;
        ensure!(count(session, "wiring.circuits").await? == before);
        agrees(session, "wiring").await
    })
    .await
}

#[tokio::test]
async fn the_loom_is_listed_and_its_labels_go_on_paper_alone() -> Result<()> {
    with_app("#wiring", async |session, _| {
        session.value("void (window.print = () => { window.printed = document.documentElement.dataset.print; })").await?;
        let wires = session.number("document.querySelectorAll('#listing tbody tr').length").await?;
        let circuits = count(session, "wiring.circuits").await?;
        ensure!(wires > circuits, "{wires} wires of {circuits} circuits");
        session.until(&format!("document.querySelectorAll('.strips li').length === {}", 2.0 * wires)).await?;
        session.press("print-labels").await?;
        session.until("window.printed === 'labels'").await?;
        session.ask("Emulation.setEmulatedMedia", serde_json::json!({ "media": "print" })).await?;
        session.until("document.querySelector('.strips li').checkVisibility()").await?;
        session
            .until("!document.querySelector('#answer').checkVisibility() && !document.querySelector('#listing table').checkVisibility()")
            .await?;
        session.ask("Emulation.setEmulatedMedia", serde_json::json!({ "media": "" })).await?;
        session.value("void window.dispatchEvent(new Event('afterprint'))").await?;
        session.until("!document.documentElement.dataset.print && !document.querySelector('.strips li').checkVisibility()").await?;
        // The list brings its diagram: a row for each circuit and each heavy cable, for as long as it is printed.
        session.press("print-list").await?;
        session.until("window.printed === 'list'").await?;
        let loads = session.number("document.querySelectorAll('.diagrams svg circle').length").await?;
        ensure!(loads == circuits + 3.0, "{loads} loads of {circuits} circuits");
        session.value("void window.dispatchEvent(new Event('afterprint'))").await?;
        session.until("!document.documentElement.dataset.print && !document.querySelector('.diagrams')").await
    })
    .await
}

#[tokio::test]
async fn a_flywheel_is_turned_ring_by_ring() -> Result<()> {
    with_app("#flywheel", async |session, _| {
        let method = "((it) => { const option = it.querySelector('[data-choice=sections]'); \
            if (option.click && option.type === 'radio') option.click(); \
            else { it.value = option.value; it.dispatchEvent(new Event('change', { bubbles: true })); } })(document.getElementById('flywheel.method'))";
        session.value(&format!("void {method}")).await?;
        let key = session.string("document.querySelector('[data-key=\"flywheel.rings\"] > .rows > li:nth-child(4)').dataset.key").await?;
        session.value(&format!("document.querySelectorAll('[data-key=\"{key}\"] details').forEach((it) => it.open = true)")).await?;
        let said = session.answer().await?;
        session.type_in(&format!("{key}.width"), "24 mm").await?;
        session.other_answer(&said).await?;
        agrees(session, "flywheel").await?;
        session.press("flywheel.rings.add").await?;
        agrees(session, "flywheel").await
    })
    .await
}

#[tokio::test]
async fn a_bonnet_is_measured_point_by_point() -> Result<()> {
    with_app("#bonnet-line", async |session, _| {
        let said = session.answer().await?;
        session.press("choice-more").await?;
        session.press("choice-more").await?;
        session.other_answer(&said).await?;
        agrees(session, "bonnet-line").await?;
        session.press("bonnet-line.points.add").await?;
        agrees(session, "bonnet-line").await
    })
    .await
}

#[tokio::test]
async fn a_link_carries_two_hundred_circuits() -> Result<()> {
    let mut build = Build::default();
    while build.rows(wiring::CIRCUITS).len() < 200 {
        build.add_row(wiring::CIRCUITS).context("there is no room for two hundred")?;
    }
    let rows = build.rows(wiring::CIRCUITS).to_vec();
    for (at, &row) in rows.iter().enumerate() {
        let place = |id| Place { id, row: Some(row) };
        build.set(place(wiring::CURRENT.id), 1.0 + (at % 9) as f64).map_err(|why| anyhow::anyhow!("{why:?}"))?;
        build.set(place(wiring::LENGTH.id), 0.5 + 0.05 * (at % 40) as f64).map_err(|why| anyhow::anyhow!("{why:?}"))?;
    }
    let text = link::write(&Link { build: build.clone(), note: String::new(), show: "wiring".into(), ..Link::default() });
    ensure!(desk::opened(&text)? == build);
    with_app(&format!("#{text}"), async |session, _| {
        session.until("!!document.getElementById('visit')").await?;
        session.says("answer-spoken", &desk::spoken(&build, "wiring", System::Metric)?).await?;
        ensure!(count(session, "wiring.circuits").await? == 200.0);
        session.press("take-theirs").await?;
        session.kept().await?;
        let mut kept = build.clone();
        kept.set_text(car::NAME.id.into(), "From a link").map_err(|why| anyhow::anyhow!("{why:?}"))?;
        ensure!(desk::kept(session.kept_text(KEPT).await?)? == kept);
        // It can still be worked on.
        let key = format!("wiring.circuits.{}", rows[199].0);
        session.value(&format!("document.querySelectorAll('[data-key=\"{key}\"] details').forEach((it) => it.open = true)")).await?;
        session.type_in(&format!("{key}.current"), "12").await?;
        agrees(session, "wiring").await?;
        session.nothing_wrong().await
    })
    .await
}
