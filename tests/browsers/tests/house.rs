//! What holds whatever the page shows: it starts, under its policy; it works without a network; a newer version waits.

use crate::session::{Folder, Session, copy_app, dist, in_browser};
use anyhow::{Context, Result, ensure};
use serde_json::json;
use std::{fs, path::Path};
use trialfit_bundle::server::Server;

pub(crate) const ROOT: &str = "document.documentElement.dataset";

/// Notes in the page what becomes of the next worker that is installed.
const WATCH_NEXT: &str = "void navigator.serviceWorker.getRegistration().then((registration) => \
    registration.addEventListener('updatefound', () => { const next = registration.installing; \
    next.addEventListener('statechange', () => { window.became = next.state; }); }))";

/// The version of the app published next.
pub(crate) const NEXT: &str = "feedfeedfeed";

/// Makes the app in `folder` look like one built later: page and worker are of another version, the rest is the same.
pub(crate) fn publish_next(folder: &Path, files: &[&str]) -> Result<()> {
    let old = version(&dist()?)?;
    for name in files {
        let text = fs::read_to_string(folder.join(name))?;
        ensure!(text.contains(&old), "{name} does not say its version");
        fs::write(folder.join(name), text.replace(&old, NEXT))?;
        for twin in ["br", "gz"] {
            // A build for the desk has none.
            fs::remove_file(folder.join(format!("{name}.{twin}"))).or_else(|why| match why.kind() {
                std::io::ErrorKind::NotFound => Ok(()),
                _ => Err(why),
            })?;
        }
    }
    Ok(())
}

fn version(folder: &Path) -> Result<String> {
    let page = fs::read_to_string(folder.join("index.html"))?;
    let after = page.split_once("data-version=\"").context("the page has no version")?.1;
    Ok(after.split('"').next().unwrap_or_default().to_owned())
}

/// As when someone comes back to the tab.
pub(crate) async fn come_back(session: &Session) -> Result<()> {
    session.until("document.visibilityState === 'visible'").await?;
    session.value("document.dispatchEvent(new Event('visibilitychange'))").await.map(drop)
}

#[tokio::test]
async fn starts_under_its_policy_and_works_on_without_a_network() -> Result<()> {
    let server = Server::start(&dist()?, 0)?;
    let url = server.url();
    in_browser(360, 740, async |session| {
        session.start(&url).await?;
        session.nothing_refused().await?;
        session.kept().await?;
        server.stop();
        for address in [url.clone(), format!("{url}?from=elsewhere"), format!("{url}index.html"), format!("{url}#note=x")] {
            session.driver.goto("about:blank").await?;
            session.start(&address).await.context(address)?;
            session.nothing_refused().await?;
        }
        session.driver.refresh().await?;
        session.started().await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn installs_and_starts_from_there_without_a_network() -> Result<()> {
    let server = Server::start(&dist()?, 0)?;
    let url = server.url();
    in_browser(360, 740, async |session| {
        session.start(&url).await?;
        session.kept().await?;
        let errors = session.ask("Page.getInstallabilityErrors", json!({})).await?;
        ensure!(errors["installabilityErrors"] == json!([]), "{errors}");
        let read = session.ask("Page.getAppManifest", json!({})).await?;
        ensure!(read["errors"] == json!([]), "{read}");
        let manifest = "fetch(document.querySelector('link[rel=manifest]').href).then((answer) => answer.json())";
        let manifest = session.awaited(manifest).await?;
        // Every icon is of the size it says, and has what belongs to it within the circle that is never cut off.
        for icon in manifest["icons"].as_array().context("no icons")? {
            let (source, sizes) = (icon["src"].as_str().context("no address")?, icon["sizes"].as_str().unwrap_or_default());
            let outside = session.awaited(&format!("{OUTSIDE}('{source}')")).await?;
            ensure!(sizes == "any" || outside[0] == json!(sizes), "{source} is {outside}");
            ensure!(icon["purpose"] != "maskable" || outside[1] == json!(0), "{source} is cut off: {outside}");
        }
        ensure!(manifest["icons"].to_string().contains("maskable"));
        // The browser's offer is kept for the menu.
        session.press("open-menu").await?;
        let offer = "Object.assign(new Event('beforeinstallprompt', { cancelable: true }), { prompt() { window.asked = true; } })";
        // The browser's own may come at any time, and again after that.
        let ask =
            format!("(() => {{ dispatchEvent({offer}); document.getElementById('install')?.click(); return window.asked === true; }})()");
        session.until(&ask).await?;

        let start = manifest["start_url"].as_str().context("no start")?;
        ensure!(start == manifest["scope"] && start == manifest["id"], "{manifest}");
        server.stop();
        session.driver.goto("about:blank").await?;
        session.start(&format!("{url}{start}")).await
    })
    .await
}

/// Size of a picture, and how many of its dots outside the middle four fifths are not of the ground's colour.
const OUTSIDE: &str = "(async (source) => { const picture = new Image(); picture.src = source; await picture.decode(); \
    const { naturalWidth: wide, naturalHeight: high } = picture; const canvas = document.createElement('canvas'); \
    canvas.width = wide; canvas.height = high; const context = canvas.getContext('2d'); context.drawImage(picture, 0, 0); \
    const { data } = context.getImageData(0, 0, wide, high); let count = 0; \
    for (let at = 0; at < wide * high; at++) { const [x, y] = [at % wide - wide / 2, Math.floor(at / wide) - high / 2]; \
        if (Math.hypot(x, y) > 0.4 * wide && [0, 1, 2].some((part) => data[4 * at + part] !== data[part])) count++; } \
    return [`${wide}x${high}`, count]; })";

#[tokio::test]
async fn an_address_that_is_not_there_leads_home_without_a_network() -> Result<()> {
    let server = Server::start(&dist()?, 0)?;
    let url = server.url();
    in_browser(360, 740, async |session| {
        session.start(&url).await?;
        session.kept().await?;
        server.stop();
        session.start(&format!("{url}deep/er#kept")).await?;
        ensure!(session.value("location.href").await? == json!(format!("{url}#kept")));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn works_in_a_folder_of_a_site() -> Result<()> {
    let site = Folder::new()?;
    fs::write(site.0.join("index.html"), "elsewhere")?;
    fs::create_dir(site.0.join("tool"))?;
    copy_app(&site.0.join("tool"))?;
    let server = Server::start(&site.0, 0)?;
    let url = format!("{}tool/", server.url());
    in_browser(360, 740, async |session| {
        session.start(&url).await?;
        session.nothing_refused().await?;
        session.kept().await?;
        server.stop();
        session.driver.goto("about:blank").await?;
        session.start(&url).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_newer_version_waits_and_comes_to_the_tab_that_asks() -> Result<()> {
    let app = Folder::with_app()?;
    let old = version(&app.0)?;
    let server = Server::start(&app.0, 0)?;
    in_browser(360, 740, async |session| {
        let driver = &session.driver;
        session.start(&server.url()).await?;
        session.kept().await?;
        let asking = driver.window().await?;
        driver.new_tab().await.map(drop)?;
        let tabs = driver.windows().await?;
        let other = tabs.into_iter().find(|tab| *tab != asking).context("no second tab")?;
        driver.switch_to_window(other.clone()).await?;
        session.start(&server.url()).await?;
        session.value("window.untouched = true").await?;
        driver.switch_to_window(asking.clone()).await?;

        session.value("void addEventListener('trialfit-update-waiting', () => { window.told = true; })").await?;
        publish_next(&app.0, &["index.html", "sw.js"])?;
        come_back(session).await?;
        session.until(&format!("{ROOT}.update === 'waiting' && window.told === true")).await?;
        // It waits, through loading again too.
        driver.refresh().await?;
        session.started().await?;
        ensure!(session.value(&format!("{ROOT}.version")).await? == json!(old));
        session.until(&format!("{ROOT}.update === 'waiting'")).await?;

        session.value("dispatchEvent(new Event('trialfit-update-take'))").await?;
        session.until(&format!("{ROOT}.version === '{NEXT}'")).await?;
        session.started().await?;
        ensure!(session.value(&format!("{ROOT}.update === undefined")).await? == json!(true));

        // The other tab was left alone, and what it may still load is still there.
        driver.switch_to_window(other).await?;
        ensure!(session.value("window.untouched").await? == json!(true), "the other tab was loaded again");
        ensure!(session.value(&format!("{ROOT}.version")).await? == json!(old));
        session.until(&format!("{ROOT}.update === undefined")).await?;
        let both = json!([format!("trialfit-{old}"), format!("trialfit-{NEXT}")]);
        ensure!(session.awaited("caches.keys()").await? == both, "the older version is gone while a tab shows it");

        // Once that tab is closed, the older version goes.
        driver.close_window().await?;
        driver.switch_to_window(asking).await?;
        server.stop();
        driver.refresh().await?;
        session.started().await?;
        session.until(&format!("{ROOT}.version === '{NEXT}'")).await?;
        session.value("void setInterval(async () => { window.caching = await caches.keys(); }, 50)").await?;
        session.until(&format!("window.caching?.join() === 'trialfit-{NEXT}'")).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_half_published_version_is_not_taken() -> Result<()> {
    let app = Folder::with_app()?;
    let server = Server::start(&app.0, 0)?;
    in_browser(360, 740, async |session| {
        session.start(&server.url()).await?;
        session.kept().await?;
        publish_next(&app.0, &["sw.js"])?;
        session.value(WATCH_NEXT).await?;
        come_back(session).await?;
        session.until("window.became === 'redundant'").await?;
        ensure!(session.value(&format!("{ROOT}.update === undefined")).await? == json!(true));

        // Published whole, it is offered.
        publish_next(&app.0, &["index.html"])?;
        come_back(session).await?;
        session.until(&format!("{ROOT}.update === 'waiting'")).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn says_so_when_it_cannot_start_and_mends_itself() -> Result<()> {
    let app = Folder::with_app()?;
    let all = fs::read_dir(&app.0)?.flatten().map(|file| file.file_name());
    let wasm: Vec<_> = all.filter(|name| name.to_string_lossy().contains(".wasm")).collect();
    for name in &wasm {
        fs::remove_file(app.0.join(name))?;
    }
    let server = Server::start(&app.0, 0)?;
    in_browser(360, 740, async |session| {
        session.driver.goto(server.url()).await?;
        session.until("document.querySelector('.failed[role=alert] button') !== null").await?;
        session.nothing_refused().await?;
        // These alone: a file that is written while the worker still asks for it would be kept as it is then.
        for name in &wasm {
            fs::copy(dist()?.join(name), app.0.join(name))?;
        }
        session.value("document.querySelector('.failed button').click()").await?;
        session.started().await?;
        // Should it break down later, it says that as well.
        session.value("dispatchEvent(new ErrorEvent('error', { error: new WebAssembly.RuntimeError('unreachable') }))").await?;
        session.until("document.querySelector('.failed[role=alert]')?.textContent.includes('has stopped')").await?;
        session.value("document.querySelector('.failed button').click()").await?;
        session.until("!document.querySelector('.failed')").await?;
        session.started().await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_newer_version_waits_while_a_value_is_typed_and_loses_none() -> Result<()> {
    const RATIO: &str = "clutch.pedal-ratio";
    let app = Folder::with_app()?;
    let server = Server::start(&app.0, 0)?;
    in_browser(360, 740, async |session| {
        session.start(&format!("{}#clutch", server.url())).await?;
        session.kept().await?;
        session.value("window.untouched = true").await?;
        session.enter(RATIO, "5.").await?;
        publish_next(&app.0, &["index.html", "sw.js"])?;
        come_back(session).await?;
        session.until("!!document.getElementById('take-update')").await?;
        // The offer takes neither the field nor what stands in it.
        session.until(&format!("document.activeElement.id === '{RATIO}'")).await?;
        session.driver.active_element().await?.send_keys("5").await?;
        ensure!(session.field(RATIO).await? == "5.5" && session.value("window.untouched").await? == json!(true));
        let answer = crate::desk::answer(&format!("1.1/{RATIO}=5.5/end"), "clutch")?;
        session.says("answer-spoken", &answer).await?;

        session.leave().await?;
        session.press("take-update").await?;
        session.until(&format!("{ROOT}.version === '{NEXT}'")).await?;
        session.started().await?;
        session.says("answer-spoken", &answer).await?;
        ensure!(session.field(RATIO).await? == "5.5", "what was typed was lost");
        ensure!(session.value("location.hash").await? == json!("#clutch"), "the place was lost");
        session.nothing_wrong().await
    })
    .await
}
