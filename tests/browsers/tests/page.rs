//! The app as people meet it: fields by their keys, buttons by their ids, real keys and pointers.

use crate::engine::Engine;
use crate::session::{DESK, Session, dist, in_browser};
use anyhow::{Context, Result, ensure};
use lopdf::Document;
use serde_json::json;
use thirtyfour::{By, Key, WebElement, WindowHandle};
use trialfit_bundle::server::Server;
use trialfit_core::calculators::ALL;
use trialfit_core::overview::OVERVIEW;

/// Width and height of a screen.
pub(crate) type Size = (u32, u32);
pub(crate) const PHONE: Size = (360, 740);
pub(crate) const WIDE: Size = (1280, 800);

/// Every calculator, each of which has a screen.
pub(crate) fn screens() -> impl Iterator<Item = &'static str> {
    ALL.iter().map(|it| it.key)
}

/// Every screen: the whole car's, then the calculators'.
pub(crate) fn every_screen() -> impl Iterator<Item = &'static str> {
    std::iter::once(OVERVIEW).chain(screens())
}

/// Runs `test` at a phone's size with the app open at `fragment`; fails too if anything went wrong in the page unseen.
pub(crate) async fn with_app(fragment: &str, test: impl AsyncFnOnce(&Session, &str) -> Result<()>) -> Result<()> {
    with_app_at(PHONE, fragment, test).await
}

/// The same at a size of one's own.
pub(crate) async fn with_app_at(size: Size, fragment: &str, test: impl AsyncFnOnce(&Session, &str) -> Result<()>) -> Result<()> {
    let server = Server::start(&dist()?, 0)?;
    let url = server.url();
    in_browser(size.0, size.1, async |session| {
        session.start(&format!("{url}{fragment}")).await?;
        test(session, &url).await?;
        session.nothing_wrong().await
    })
    .await
}

/// Without spaces.
pub(crate) fn bare(text: &str) -> String {
    text.split_whitespace().collect()
}

/// Text as a string of the page's language.
pub(crate) fn quoted(text: &str) -> String {
    json!(text).to_string()
}

/// The element with this id, in the page.
fn by_id(id: &str) -> String {
    format!("document.getElementById({})", quoted(id))
}

impl Session {
    /// The element with this id, once it is there.
    pub(crate) async fn element(&self, id: &str) -> Result<WebElement> {
        self.until(&format!("!!{}", by_id(id))).await?;
        Ok(self.driver.find(By::Css(format!("[id={}]", quoted(id)))).await?)
    }

    /// The element with this id, scrolled clear of the bars as people do before they touch it.
    pub(crate) async fn in_sight(&self, id: &str) -> Result<WebElement> {
        let element = self.element(id).await?;
        self.value(&format!("void {}.scrollIntoView({{ block: 'center', behavior: 'instant' }})", by_id(id))).await?;
        Ok(element)
    }

    /// Goes to a calculator or a field by the address.
    pub(crate) async fn go(&self, key: &str) -> Result<()> {
        self.value(&format!("void (location.hash = {})", quoted(key))).await?;
        let calculator = key.split('.').next().unwrap_or_default();
        self.until(&format!("document.querySelector('.screen').dataset.calculator === {}", quoted(calculator))).await?;
        self.whole().await?;
        if key.contains('.') {
            self.until(&format!("document.activeElement?.id === {}", quoted(key))).await?;
        }
        Ok(())
    }

    /// All the words in the element with this id, hidden ones too; spaces that hold words together are plain ones.
    pub(crate) async fn words(&self, id: &str) -> Result<String> {
        self.until(&format!("!!{}", by_id(id))).await?;
        self.string(&format!("{}.textContent.replace(/\\s/g, ' ')", by_id(id))).await
    }

    /// What `expression` is, which must be a string.
    pub(crate) async fn string(&self, expression: &str) -> Result<String> {
        let value = self.value(expression).await?;
        Ok(value.as_str().with_context(|| format!("{expression} is {value}"))?.to_owned())
    }

    /// What `expression` is, which must be a number.
    pub(crate) async fn number(&self, expression: &str) -> Result<f64> {
        let value = self.value(expression).await?;
        value.as_f64().with_context(|| format!("{expression} is {value}"))
    }

    /// The answer as a voice reads it.
    pub(crate) async fn answer(&self) -> Result<String> {
        self.words("answer-spoken").await
    }

    /// Waits until the answer is another than `before`; gives it.
    pub(crate) async fn other_answer(&self, before: &str) -> Result<String> {
        self.until(&format!("{}.textContent !== {}", by_id("answer-spoken"), quoted(before))).await?;
        self.answer().await
    }

    /// Presses the button with this id.
    pub(crate) async fn press(&self, id: &str) -> Result<()> {
        self.in_sight(id).await?.click().await.with_context(|| format!("pressing {id}"))
    }

    /// Types `text` in place of what stands in the field with this id, which keeps the focus.
    pub(crate) async fn enter(&self, id: &str, text: &str) -> Result<()> {
        let field = self.in_sight(id).await?;
        field.click().await.with_context(|| format!("touching {id}"))?;
        field.send_keys(Key::Control + "a").await?;
        field.send_keys(if text.is_empty() { Key::Delete + "" } else { text.into() }).await?;
        Ok(())
    }

    /// Types `text` into the field with this id and leaves it.
    pub(crate) async fn type_in(&self, id: &str, text: &str) -> Result<()> {
        self.enter(id, text).await?;
        self.leave().await
    }

    /// Picks what has this value in the list with this id.
    pub(crate) async fn choose(&self, id: &str, value: &str) -> Result<()> {
        self.element(id).await?;
        let (list, value) = (by_id(id), quoted(value));
        let change = "dispatchEvent(new Event('change', { bubbles: true }))";
        self.value(&format!("void ((it) => {{ it.value = {value}; it.{change}; }})({list})")).await?;
        self.until(&format!("{list}.value === {value}")).await
    }

    /// Leaves the field that is typed in.
    pub(crate) async fn leave(&self) -> Result<()> {
        self.value("document.activeElement.blur()").await.map(drop)
    }

    /// What stands in the field with this id.
    pub(crate) async fn field(&self, id: &str) -> Result<String> {
        self.until(&format!("!!{}", by_id(id))).await?;
        self.string(&format!("{}.value", by_id(id))).await
    }

    /// What the field with this id says below it.
    pub(crate) async fn note(&self, id: &str) -> Result<String> {
        self.words(&format!("{id}.note")).await
    }

    /// Fails unless the words of the element with this id have `part` in them, before long.
    pub(crate) async fn says(&self, id: &str, part: &str) -> Result<()> {
        let said = self.until(&format!("{}?.textContent.replace(/\\s/g, ' ').includes({})", by_id(id), quoted(part))).await;
        if said.is_err() {
            let words = self.words(id).await?;
            ensure!(words.contains(part), "{id} does not say “{part}”: “{words}”");
        }
        Ok(())
    }

    /// What this origin keeps under `key`.
    pub(crate) async fn kept_text(&self, key: &str) -> Result<Option<String>> {
        Ok(self.value(&format!("localStorage.getItem({})", quoted(key))).await?.as_str().map(str::to_owned))
    }

    /// What would come out on paper of so many inches: its pages, and all the words on them without spaces.
    pub(crate) async fn printed(&self, width: f64, height: f64) -> Result<(usize, String)> {
        let paper = json!({ "paperWidth": width, "paperHeight": height, "preferCSSPageSize": false });
        let page = self.ask("Page.printToPDF", paper).await?;
        let data = page["data"].as_str().context("no data")?;
        let bytes = self.value(&format!("[...atob({})].map((it) => it.charCodeAt(0))", quoted(data))).await?;
        let bytes: Vec<u8> = serde_json::from_value(bytes)?;
        let document = Document::load_mem(&bytes)?;
        let pages: Vec<u32> = document.get_pages().into_keys().collect();
        // Words are cut and spaced as the lines fall, and some letters set as one.
        let text = bare(&document.extract_text(&pages)?).replace('ﬁ', "fi").replace('ﬂ', "fl").replace('ﬀ', "ff");
        Ok((pages.len(), text))
    }

    /// Opens a second tab and goes to it, before anything is loaded there; gives both.
    pub(crate) async fn second_tab(&self) -> Result<[WindowHandle; 2]> {
        let first = self.driver.window().await?;
        let second = self.driver.new_tab().await?;
        self.driver.switch_to_window(second.clone()).await?;
        Ok([first, second])
    }

    /// Loads the page again.
    pub(crate) async fn reload(&self) -> Result<()> {
        if self.engine == Engine::Chromium {
            self.driver.refresh().await?;
            return self.started().await;
        }
        // Firefox' own way past the driver goes past the service worker too.
        let address = self.string("location.href").await?;
        self.driver.goto("about:blank").await?;
        self.start(&address).await
    }

    /// Gives the page a screen of this size; a desk's where it is wide.
    pub(crate) async fn screen(&self, width: u32, height: u32, dots: u32) -> Result<()> {
        let mobile = width < DESK;
        let size = json!({ "width": width, "height": height, "deviceScaleFactor": dots, "mobile": mobile });
        self.ask("Emulation.setDeviceMetricsOverride", size).await?;
        self.ask("Emulation.setTouchEmulationEnabled", json!({ "enabled": mobile })).await?;
        self.until(&format!("innerWidth === {width} && innerHeight === {height}")).await
    }

    /// Lets the device prefer dark colours, or light ones.
    pub(crate) async fn prefer(&self, colours: &str) -> Result<()> {
        let features = json!({ "features": [{ "name": "prefers-color-scheme", "value": colours }] });
        self.ask("Emulation.setEmulatedMedia", features).await?;
        self.until(&format!("matchMedia('(prefers-color-scheme: {colours})').matches")).await
    }
}
