//! Finding a set of parts, from a first visit to a link that opens the same elsewhere.

use crate::page::{WIDE, quoted, with_app, with_app_at};
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use thirtyfour::Key;
use trialfit_core::build::Build;
use trialfit_core::calculators::clutch;
use trialfit_core::shelf;
use trialfit_core::show;
use trialfit_core::spec::{Kind, Place};
use trialfit_core::tools::combine::{Aim, Combine, Must, Search, What, judged};
use trialfit_tests::{PLAN, done};

const SHELF: &str = include_str!("../../../public/demo-shelf.json");

async fn open_demo(session: &Session) -> Result<()> {
    session.press("demo-shelf").await?;
    session.element("combine").await?;
    session.value("void (document.getElementById('combine').open = true)").await?;
    session.element("combine-go").await.map(drop)
}

/// The slots that the page searches, by their ids.
async fn searched(session: &Session) -> Result<Vec<Search>> {
    session.value("document.querySelectorAll('#combine details').forEach((it) => it.open = true)").await?;
    session.element("combine-slot-slave-cylinder").await?;
    let ticked = |which: &str| {
        format!(
            "[...document.querySelectorAll('[id^=\"combine-{which}-\"]')].filter((it) => it.checked).map((it) => it.id.split('-').slice(2).join('-')).join(' ')"
        )
    };
    let (slots, empty) = (session.string(&ticked("slot")).await?, session.string(&ticked("empty")).await?);
    let search = |slot: &str| if empty.split(' ').any(|it| it == slot) { Search::or_none(slot) } else { Search::filled(slot) };
    Ok(slots.split(' ').map(search).collect())
}

/// A lighter pedal, a belt drive that charges at idle and does not cavitate, a bonnet that shuts: found on a phone, fitted,
/// priced and sent. What the page finds is what core finds natively.
#[tokio::test]
async fn a_set_is_found_fitted_priced_and_sent() -> Result<()> {
    with_app("#overview", async |session, url| {
        open_demo(session).await?;
        session.press("combine-group-front-drive").await?;
        session.press("combine-group-bonnet-line").await?;
        session.type_in("combine-limit-1-number", "115").await?;
        let search = searched(session).await?;
        session.press("combine-go").await?;
        session.until("!!document.querySelector('#combine .front')").await?;

        let (build, shelves) = (Build::default(), [shelf::read(SHELF)?.shelf]);
        let effort = Place::from(clutch::PEDAL_FORCE.id);
        let musts: Vec<Must> = std::iter::once(Must::AtMost(effort, 115.0)).chain(judged(&PLAN, &build, &shelves, &search)).collect();
        for wanted in ["front-drive.alternator-idle-speed", "bonnet-line.chance-any"] {
            let place = build.layout().place_by_key(wanted).context(wanted)?;
            ensure!(musts.iter().any(|must| must.place() == place), "{wanted} is not asked for");
        }
        let euro = shelves[0].parts.iter().find_map(|part| part.price).context("no price")?.currency;
        let aims = [What::Output(effort), What::Price(euro), What::Mass].map(|what| Aim { what, most: false });
        let job = Combine::new(&PLAN, &build, &shelves, &search, &aims, &musts).map_err(|why| anyhow::anyhow!("{why}"))?;
        let found = done(&PLAN, job, 10_000);
        let trades = found.front.trades();
        ensure!(trades.len() > 3, "no choice among {}", trades.len());
        let rows = session.number("document.querySelectorAll('#combine .front > li > button').length").await?;
        ensure!(rows as usize == trades.len().min(40), "{rows} rows of {}", trades.len());
        let Kind::Quantity { unit, .. } = build.layout().kind(effort.id) else { anyhow::bail!("no quantity") };
        let force = |at: usize| show::answer(trades[at].figures[0], unit, 3).to_string().replace('\u{a0}', " ");
        let first = session.string("document.getElementById('set-1').textContent.replace(/\\s/g, ' ')").await?;
        ensure!(first.contains(&force(0)), "{first} has no {}", force(0));

        // Tap through: another one opens, its chances are counted, and its parts are fitted as one step.
        session.press("set-3").await?;
        session.until("document.getElementById('set-3').getAttribute('aria-expanded') === 'true'").await?;
        session.until("/all of it holds in \\d/.test(document.querySelector('.chances')?.textContent ?? '')").await?;
        session.press("fit-set").await?;
        session.until("!!document.getElementById('kit')").await?;
        let price = format!("{:.2} EUR", trades[2].figures[1]);
        session.until(&format!("document.getElementById('parts').textContent.includes({})", quoted(&format!("{price},")))).await?;
        session.go("clutch").await?;
        ensure!(session.answer().await?.contains(force(2).trim_end_matches(" N")), "{}", session.answer().await?);
        let answer = session.answer().await?;
        session.press("open-send").await?;
        let link = session.string("document.getElementById('send-link').value").await?;
        session.press("close-send").await?;
        session.press("undo").await?;
        session.other_answer(&answer).await?;

        // Elsewhere it opens the same, without the shelf and with it.
        let fragment = link.split_once('#').context("no fragment")?.1.to_owned();
        ensure!(link.starts_with(url), "{link}");
        with_app(&format!("#{fragment}"), async |other, _| {
            other.element("visit").await?;
            other
                .until(&format!("document.getElementById('answer-spoken').textContent.replace(/\\s/g, ' ') === {}", quoted(&answer)))
                .await?;
            other.go("overview").await?;
            other.press("demo-shelf").await?;
            other.until(&format!("document.getElementById('parts').textContent.includes({})", quoted(&format!("{price},")))).await
        })
        .await
    })
    .await
}

#[tokio::test]
async fn a_search_stops_at_once_and_the_keys_are_enough() -> Result<()> {
    with_app_at(WIDE, "#overview", async |session, _| {
        open_demo(session).await?;
        for group in ["front-drive", "bonnet-line", "wiring", "flywheel"] {
            session.press(&format!("combine-group-{group}")).await?;
        }
        session.until("/may take a while/.test(document.getElementById('combinations').textContent)").await?;
        session.element("combine-go").await?.send_keys(Key::Enter + "").await?;
        session.until("!!document.querySelector('#combine progress')").await?;
        session.element("stop").await?.send_keys(Key::Enter + "").await?;
        session.until("!document.querySelector('#combine progress') && !document.querySelector('#combine .front')").await?;
        // Without any aim there is nothing to search for, and the page says so.
        for aim in 1..=3 {
            session.choose(&format!("combine-aim-{aim}"), "").await?;
        }
        session.until("/one to three aims/.test(document.getElementById('combinations').textContent)").await
    })
    .await
}

/// What is asked of a search goes into a link, and opens as it was where there is a shelf.
#[tokio::test]
async fn what_is_asked_travels() -> Result<()> {
    with_app("#overview", async |session, _| {
        open_demo(session).await?;
        session.press("combine-group-front-drive").await?;
        session.type_in("combine-limit-1-number", "118").await?;
        session.value("document.querySelectorAll('#combine details').forEach((it) => it.open = true)").await?;
        session.press("combine-slot-belt").await?;
        session.press("combine-must-clutch.margin").await?;
        let count = session.words("combinations").await?;
        session.press("open-send").await?;
        session.choose("send-show", "combine").await?;
        session.until("/show=combine/.test(document.getElementById('send-link').value)").await?;
        let link = session.string("document.getElementById('send-link').value").await?;
        let fragment = link.split_once('#').context("no fragment")?.1.to_owned();
        with_app(&format!("#{fragment}"), async |other, _| {
            other.until("document.querySelector('.screen').dataset.calculator === 'overview'").await?;
            open_demo(other).await?;
            other
                .until(&format!("document.getElementById('combinations').textContent.replace(/\\s/g, ' ') === {}", quoted(&count)))
                .await?;
            ensure!(other.field("combine-limit-1-number").await? == "118");
            other.value("document.querySelectorAll('#combine details').forEach((it) => it.open = true)").await?;
            other.until("document.getElementById('combine-must-clutch.margin')?.checked === false").await?;
            other.until("document.getElementById('combine-slot-belt').checked === false").await?;
            other.until("document.getElementById('combine-group-front-drive').checked").await
        })
        .await
    })
    .await
}

/// Nothing can be that light: the page says what rules most out, and what comes of doing without it.
#[tokio::test]
async fn where_nothing_passes_the_page_says_why() -> Result<()> {
    with_app("#overview", async |session, _| {
        open_demo(session).await?;
        session.type_in("combine-limit-1-number", "15").await?;
        session.press("combine-go").await?;
        session.until("/None of/.test(document.getElementById('combine').textContent)").await?;
        session.until("/at most 15[.0]*.N/.test(document.getElementById('combine').textContent)").await?;
        // What cannot be read is told, and nothing is searched for it.
        session.type_in("combine-limit-1-number", "light").await?;
        session.press("combine-go").await?;
        session.until("document.getElementById('combine-limit-1-number').getAttribute('aria-invalid') === 'true'").await?;
        session
            .until("!document.querySelector('#combine .front') && !/None of/.test(document.getElementById('combine').textContent)")
            .await?;
        // Done without, it is searched again at once.
        session.type_in("combine-limit-1-number", "15").await?;
        session.press("combine-go").await?;
        session.press("waive").await?;
        session.until("!!document.querySelector('#combine .front')").await
    })
    .await
}
