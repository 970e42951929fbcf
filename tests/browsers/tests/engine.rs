//! The engines the app is tried in: how the driver of each is started, and what it is asked for.

use crate::session::{DESK, named};
use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use std::{
    io::{BufRead, BufReader},
    net::{Ipv4Addr, TcpListener, TcpStream},
    path::Path,
    process::{Child, Command, Stdio},
    thread::sleep,
    time::{Duration, Instant},
};
use thirtyfour::{Capabilities, ChromiumLikeCapabilities, DesiredCapabilities, LoggingPrefsLogLevel};

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Engine {
    Chromium,
    Firefox,
    /// As GTK has it, which is not the one of a phone, but the nearest that can be had without one.
    WebKit,
}

/// How long a driver may take to listen.
const STARTING: Duration = Duration::from_secs(20);

/// A driver that listens, and the screen it draws on; ended with this.
pub(crate) struct Running {
    pub(crate) port: u16,
    pub(crate) wanted: Capabilities,
    _driver: Process,
    _screen: Option<Process>,
}

/// A process and, where it leads a group, those it has started: a driver that is ended leaves its browser behind.
struct Process {
    child: Child,
    group: bool,
}

impl Drop for Process {
    fn drop(&mut self) {
        if self.group {
            let whole = format!("kill -KILL -- -{}", self.child.id());
            Command::new("sh").args(["-c", &whole]).stderr(Stdio::null()).status().ok();
        }
        self.child.kill().and_then(|()| self.child.wait()).ok();
    }
}

impl Engine {
    /// Whether it is here; that it is not has been said by the one who looked for it.
    pub(crate) fn is_here(self) -> bool {
        let variable = match self {
            Self::Chromium => "TRIALFIT_CHROMIUM",
            Self::Firefox => "TRIALFIT_FIREFOX",
            Self::WebKit => "TRIALFIT_WEBKITDRIVER",
        };
        named(variable).is_ok()
    }

    /// Starts its driver, which keeps what it writes in `folder`.
    pub(crate) fn start(self, folder: &Path, width: u32, height: u32) -> Result<Running> {
        match self {
            Self::Chromium => chromium(folder, width, height),
            Self::Firefox => {
                let mut driver = Command::new(named("TRIALFIT_GECKODRIVER")?);
                let browser = json!({ "binary": named("TRIALFIT_FIREFOX")?, "args": ["-headless"] });
                let wanted = json!({ "browserName": "firefox", "moz:firefoxOptions": browser });
                listening(driver.env("TMPDIR", folder), wanted, None)
            }
            Self::WebKit => {
                let (screen, number) = screen(width, height)?;
                let mut driver = Command::new(named("TRIALFIT_WEBKITDRIVER")?);
                let browser = json!({ "binary": named("TRIALFIT_MINIBROWSER")?, "args": ["--automation", "--full-screen"] });
                driver.env("DISPLAY", format!(":{number}")).env("TMPDIR", folder);
                listening(&mut driver, json!({ "webkitgtk:browserOptions": browser }), Some(screen))
            }
        }
    }
}

/// Between finding a free port and taking it, another driver may have taken it.
const TRIES: usize = 3;

fn chromium(profile: &Path, width: u32, height: u32) -> Result<Running> {
    let found = (0..TRIES).find_map(|_| chromedriver().transpose());
    let (driver, port) = found.context("chromedriver did not say its port")??;
    Ok(Running { port, wanted: of_chromium(profile, width, height)?, _driver: driver, _screen: None })
}

fn chromedriver() -> Result<Option<(Process, u16)>> {
    let mut driver = Command::new(named("TRIALFIT_CHROMEDRIVER")?);
    let child = driver.arg("--port=0").stdout(Stdio::piped()).stderr(Stdio::null()).spawn();
    let mut driver = Process { child: child.context("chromedriver did not start")?, group: false };
    let said = BufReader::new(driver.child.stdout.take().context("no output")?);
    let port = said.lines().map_while(Result::ok).find_map(|line| port_in(&line));
    Ok(port.map(|port| (driver, port)))
}

fn port_in(line: &str) -> Option<u16> {
    line.strip_suffix('.')?.rsplit_once("on port ")?.1.parse().ok()
}

fn of_chromium(profile: &Path, width: u32, height: u32) -> Result<Capabilities> {
    let mut chrome = DesiredCapabilities::chrome();
    chrome.set_binary(&named("TRIALFIT_CHROMIUM")?)?;
    for argument in [
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
    ] {
        chrome.add_arg(argument)?;
    }
    chrome.add_arg(&format!("--user-data-dir={}", profile.display()))?;
    // For the record of requests.
    chrome.set_logging_prefs("performance", LoggingPrefsLogLevel::All)?;
    if width < DESK {
        let screen = json!({ "width": width, "height": height, "pixelRatio": 3.0, "touch": true, "mobile": true });
        chrome.add_experimental_option("mobileEmulation", json!({ "deviceMetrics": screen }))?;
    }
    Ok(chrome.into())
}

/// A screen for a browser that cannot do without, and its number.
fn screen(width: u32, height: u32) -> Result<(Process, u32)> {
    let mut server = Command::new(named("TRIALFIT_XVFB")?);
    server.args(["-displayfd", "1", "-nolisten", "tcp", "-screen", "0", &format!("{width}x{height}x24")]);
    let child = server.stdout(Stdio::piped()).stderr(Stdio::null()).spawn();
    let mut server = Process { child: child.context("Xvfb did not start")?, group: false };
    let mut number = String::new();
    BufReader::new(server.child.stdout.take().context("no output")?).read_line(&mut number)?;
    let number = number.trim().parse().context("Xvfb did not say its number")?;
    Ok((server, number))
}

/// Starts a driver that does not choose a port itself, and waits until it listens.
fn listening(driver: &mut Command, wanted: Value, screen: Option<Process>) -> Result<Running> {
    let port = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?.local_addr()?.port();
    driver.arg(format!("--port={port}")).stdout(Stdio::null()).stderr(Stdio::null());
    #[cfg(unix)]
    std::os::unix::process::CommandExt::process_group(driver, 0);
    let child = driver.spawn().with_context(|| format!("{driver:?} did not start"))?;
    let driver = Process { child, group: cfg!(unix) };
    let began = Instant::now();
    while TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_err() {
        ensure!(began.elapsed() < STARTING, "the driver does not listen");
        sleep(Duration::from_millis(20));
    }
    let wanted = wanted.as_object().cloned().unwrap_or_default().into();
    Ok(Running { port, wanted, _driver: driver, _screen: screen })
}
