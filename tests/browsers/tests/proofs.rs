//! What to prove on the car: ticked, kept, no longer holding when its figures move, and on paper alone.

use crate::page::{bare, quoted, with_app};
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use trialfit_core::build::Build;
use trialfit_core::proofs::proofs;
use trialfit_core::sentence::Sentence;
use trialfit_core::share::link;
use trialfit_core::show::{self, System};
use trialfit_core::spec::Verdict;
use trialfit_tests::evaluated;

const TONE: &str = "front-drive.tone";

fn is_ticked(key: &str) -> String {
    format!("document.getElementById('prove-{key}')?.checked")
}

async fn tick(session: &Session, key: &str) -> Result<()> {
    let id = format!("prove-{key}");
    session.element(&id).await?;
    session.value(&format!("void document.getElementById({}).click()", quoted(&id))).await.map(drop)
}

async fn counts(session: &Session, done: usize) -> Result<()> {
    let all = proofs(&Build::default(), &evaluated(&Build::default())).len();
    session.says("proofs-done", &format!("{done} of {all} ticked")).await
}

#[tokio::test]
async fn everything_to_prove_stands_with_the_figures_of_the_car() -> Result<()> {
    with_app("#1.1/clutch.release-by=concentric/show=overview/end", async |session, _| {
        let build = link::read("1.1/clutch.release-by=concentric/end")?.link.build;
        let plain = |text: &str| text.replace('\u{202F}', "").split_whitespace().collect::<Vec<_>>().join(" ");
        session.element("proofs").await?;
        for due in proofs(&build, &evaluated(&build)) {
            let line = format!("document.querySelector('[data-proof=\"{}\"]')", due.key);
            session.until(&format!("!!{line}")).await.with_context(|| due.key.clone())?;
            let said = plain(&session.string(&format!("{line}.textContent")).await?);
            let words = plain(&show::sentence(&Sentence { verdict: Verdict::Within, pieces: due.pieces.clone() }, System::Metric));
            ensure!(said.contains(&words), "{said}, not {words}");
            ensure!(due.cautions.iter().all(|caution| said.contains(caution)), "{said}");
        }
        // Somebody else's car is not ticked.
        session.until("!document.querySelector('#proofs input') && !document.getElementById('proofs-done')").await?;
        session.press("keep-mine").await?;
        session.until("!!document.querySelector('#proofs input')").await
    })
    .await
}

#[tokio::test]
async fn a_tick_is_kept_and_holds_while_its_figures_do() -> Result<()> {
    with_app("#overview", async |session, url| {
        counts(session, 0).await?;
        tick(session, TONE).await?;
        tick(session, "clutch.bleed").await?;
        counts(session, 2).await?;
        session.reload().await?;
        counts(session, 2).await?;
        session.until(&is_ticked(TONE)).await?;

        session.go("front-drive").await?;
        session.type_in("front-drive.rib-tension", "120").await?;
        session.go("overview").await?;
        counts(session, 1).await?;
        session.until(&format!("!{}", is_ticked(TONE))).await?;
        let line = format!("document.querySelector('[data-proof=\"{TONE}\"]').textContent");
        session.until(&format!("/Ticked at 119\\sHz; the figures are others now/.test({line})")).await?;
        session.press("undo").await?;
        counts(session, 2).await.context("undone")?;

        // The next car has its own.
        session.press("open-menu").await?;
        session.press("next-customer").await?;
        session.press("close-menu").await?;
        session.says("proofs-done", "0 of").await?;
        session.start(&format!("{url}#overview")).await?;
        tick(session, TONE).await?;
        tick(session, TONE).await?;
        session.says("proofs-done", "0 of").await?;
        session.press("open-menu").await?;
        session.value("document.querySelector('[data-car=\"1\"] [data-act=\"open\"]').click()").await?;
        session.press("close-menu").await?;
        counts(session, 2).await.context("found again")
    })
    .await
}

#[tokio::test]
async fn a_tick_the_device_cannot_keep_stays_on_the_screen_and_says_so() -> Result<()> {
    with_app("#overview", async |session, _| {
        counts(session, 0).await?;
        session.value("void (Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); })").await?;
        tick(session, TONE).await?;
        counts(session, 1).await?;
        session.element("not-kept").await?;
        session.until(&is_ticked(TONE)).await
    })
    .await
}

#[tokio::test]
async fn the_list_is_printed_alone_with_the_name_of_the_car() -> Result<()> {
    with_app("#overview", async |session, _| {
        tick(session, TONE).await?;
        session.value("void (window.print = () => {})").await?;
        session.press("print-proofs").await?;
        let (pages, text) = session.printed(8.27, 11.69).await?;
        ensure!(pages <= 2, "{pages} pages");
        for words in ["To prove on the car", "Demo car", "With the engine running", "The belt of 1295 mm"] {
            ensure!(text.contains(&bare(words)), "no {words} in {text}");
        }
        for words in ["What feeds what", "Side by side", "Open a shelf"] {
            ensure!(!text.contains(&bare(words)), "{words} in {text}");
        }
        Ok(())
    })
    .await
}
