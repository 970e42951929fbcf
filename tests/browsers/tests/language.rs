//! The page in another language: nothing of it stays in the source's, it reads and writes numbers as its readers do, and it
//! opens so again, without a network too.

use crate::access::{breaches, unfold};
use crate::page::{PHONE, every_screen, with_app_at};
use crate::session::{Session, dist, in_browser};
use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::path::Path;
use std::{env, fs};
use trialfit_bundle::language::read;
use trialfit_bundle::server::Server;

/// Words that people see or hear; not what somebody typed, nor what a shelf says.
const WORDS: &str = "(() => { const all = new Set(); const own = '[data-shelf], q, .cars, [lang]:not(html), math, textarea, script'; \
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT); \
    while (walk.nextNode()) { const it = walk.currentNode; if (!it.parentElement.closest(own)) all.add(it.data.trim()); } \
    for (const name of ['aria-label', 'placeholder', 'title', 'aria-valuetext']) \
        for (const it of document.body.querySelectorAll(`[${name}]`)) if (!it.closest(own)) all.add(it.getAttribute(name)); \
    return [...all, document.title]; })()";

/// English texts that have another German one.
fn english() -> Result<BTreeMap<String, String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../public/languages/de.po");
    let texts = read(&fs::read_to_string(path)?)?.texts;
    Ok(texts.into_iter().filter(|(key, says)| key != says && key.contains(char::is_whitespace)).collect())
}

async fn in_german(session: &Session) -> Result<()> {
    session.press("open-menu").await?;
    session.value("document.documentElement.dataset.before = 'true'").await?;
    session.press("language-de").await?;
    session.until("document.documentElement.lang === 'de' && !document.documentElement.dataset.before").await?;
    session.started().await
}

#[tokio::test]
async fn nothing_on_any_screen_stays_english() -> Result<()> {
    let english = english()?;
    with_app_at(PHONE, "", async |session, _| {
        in_german(session).await?;
        let rules = env::var_os("TRIALFIT_AXE").map(fs::read_to_string).transpose()?;
        if let Some(rules) = &rules {
            session.driver.execute(rules.as_str(), Vec::new()).await?;
        }
        let mut wrong = Vec::new();
        let mut check = async |at: &str| -> Result<()> {
            let words = session.value(WORDS).await?;
            let words = words.as_array().context("no words")?;
            ensure!(words.len() > 20, "{at} says next to nothing");
            let stays = words.iter().filter_map(Value::as_str).filter(|words| english.contains_key(*words));
            wrong.extend(stays.map(|words| format!("{at}: {words}")));
            let points = words.iter().filter_map(Value::as_str).filter(|words| {
                let number = words.strip_suffix(['°', '%', '×']).unwrap_or(words);
                number.parse::<f64>().is_ok() && number.contains('.')
            });
            wrong.extend(points.map(|number| format!("{at}: {number} with a point")));
            let wide = session.value(&format!("Math.max(innerWidth, document.documentElement.scrollWidth) - {}", PHONE.0)).await?;
            if wide.as_f64().is_none_or(|wide| wide > 0.0) {
                wrong.push(format!("{at} is {wide} too wide"));
            }
            if rules.is_some() {
                wrong.extend(breaches(session).await?.into_iter().map(|breach| format!("{at}: {breach}")));
            }
            Ok(())
        };
        for screen in every_screen() {
            session.go(screen).await?;
            unfold(session).await?;
            check(screen).await?;
        }
        for window in ["menu", "send"] {
            session.press(&format!("open-{window}")).await?;
            check(window).await?;
            session.press(&format!("close-{window}")).await?;
        }
        ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
        session.nothing_wrong().await
    })
    .await
}

/// Where a word of the page is cut off, or the bar takes more than it does in English.
const CUT: &str = "(() => { const wrong = []; const pen = document.createElement('canvas').getContext('2d'); \
    const title = document.querySelector('h1'); const letters = document.createRange(); letters.selectNodeContents(title); \
    if (letters.getBoundingClientRect().right > title.getBoundingClientRect().right) wrong.push(title.textContent); \
    for (const it of document.querySelectorAll('input.number:placeholder-shown')) { \
        const style = getComputedStyle(it, '::placeholder'); pen.font = `${style.fontSize} ${style.fontFamily}`; \
        const room = it.clientWidth - 2 * parseFloat(getComputedStyle(it).paddingRight); \
        if (pen.measureText(it.placeholder).width > room) wrong.push(`${it.id}: ${it.placeholder}`); } \
    for (const it of document.querySelectorAll('.bar .name')) { it.style.overflowWrap = 'normal'; \
        if (it.scrollWidth > it.clientWidth) wrong.push(it.textContent); it.style.overflowWrap = ''; } \
    const bar = document.querySelector('.bar').offsetHeight; if (bar > 70) wrong.push(`${bar} px of bar`); \
    return wrong.slice(0, 4); })()";

#[tokio::test]
async fn longer_words_are_not_cut_off_on_a_phone() -> Result<()> {
    with_app_at(PHONE, "", async |session, _| {
        in_german(session).await?;
        let check = async |car: &str| -> Result<()> {
            for screen in every_screen() {
                session.go(screen).await?;
                let cut = session.value(CUT).await?;
                ensure!(cut == json!([]), "{car} on {screen}: {cut}");
            }
            Ok(())
        };
        check("the demo").await?;
        session.press("clear-demo").await?;
        session.until("!document.getElementById('demo')").await?;
        check("an empty car").await?;
        session.go("car").await?;
        session.says("answer", "Unbekannt: „Motordrehzahl“ fehlt.").await
    })
    .await
}

#[tokio::test]
async fn numbers_are_read_and_written_with_a_comma_and_the_language_stays() -> Result<()> {
    with_app_at(PHONE, "#clutch", async |session, _| {
        session.type_in("clutch.slave-bore", "20.5").await?;
        session.leave().await?;
        in_german(session).await?;
        session.go("clutch").await?;
        ensure!(session.field("clutch.slave-bore").await? == "20,5", "what was typed before is there, with a comma");
        session.type_in("clutch.slave-bore", "22,2").await?;
        session.leave().await?;
        ensure!(session.field("clutch.slave-bore").await? == "22,2");
        for before in ["20,5", "22,225"] {
            session.press("undo").await?;
            session.until(&format!("document.getElementById('clutch.slave-bore').value === '{before}'")).await?;
        }
        session.reload().await?;
        ensure!(session.value("document.documentElement.lang").await? == json!("de"));
        session.press("open-menu").await?;
        session.press("language-en").await?;
        session.until("document.documentElement.lang === 'en'").await?;
        session.started().await?;
        ensure!(session.field("clutch.slave-bore").await? == "22.225");
        session.nothing_wrong().await
    })
    .await
}

#[tokio::test]
async fn a_language_once_read_is_there_without_a_network() -> Result<()> {
    in_browser(PHONE.0, PHONE.1, async |session| {
        let server = Server::start(&dist()?, 0)?;
        let url = server.url();
        session.start(&format!("{url}#clutch")).await?;
        session.kept().await?;
        in_german(session).await?;
        session
            .until("globalThis.german ?? (caches.keys().then(async (keys) => { globalThis.german = (await Promise.all(keys.map(async (key) => \
                (await (await caches.open(key)).keys()).some((it) => it.url.includes('language-de'))))).includes(true) || undefined; }), false)")
            .await?;
        server.stop();
        session.driver.refresh().await?;
        session.started().await?;
        ensure!(session.value("document.documentElement.lang").await? == json!("de"));
        ensure!(session.string("document.querySelector('h1').textContent").await? == "Kupplung");
        session.nothing_wrong().await
    })
    .await
}
