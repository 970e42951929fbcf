//! Checks an address the app is published at: what a browser gets there, and whether it can keep the app for use
//! without a network.

use crate::{
    headers::{POLICY, policy_in_page},
    naming::{fingerprint, is_fingerprinted},
};
use anyhow::{Context, Result, bail, ensure};
use std::{
    collections::BTreeSet,
    fmt::{self, Display, Formatter},
    io::Read,
    time::Duration,
};
use ureq::{Agent, ResponseExt, http::HeaderMap};

/// How long one file may take.
const PATIENCE: Duration = Duration::from_secs(60);

/// What a file may weigh; the largest of ours is a tenth of it.
const MOST: u64 = 50_000_000;

/// Below this, hosts may save themselves the trouble of compressing.
const WORTH_COMPRESSING: usize = 1500;

/// What may be kept for ever is kept a month at least.
const LONG: u64 = 30 * 24 * 3600;

/// Endings and the types browsers ask for, the first of which is the one to send.
const TYPES: [(&str, &[&str]); 9] = [
    ("html", &["text/html"]),
    ("js", &["text/javascript", "application/javascript", "application/x-javascript"]),
    ("css", &["text/css"]),
    ("wasm", &["application/wasm"]),
    ("webmanifest", &["application/manifest+json", "application/json"]),
    ("svg", &["image/svg+xml"]),
    ("png", &["image/png"]),
    ("json", &["application/json", "application/schema+json"]),
    ("txt", &["text/plain"]),
];

/// What was found at an address, line by line.
#[derive(Debug, Default)]
pub struct Findings {
    pub right: Vec<String>,
    /// What is wrong, and what to do about it.
    pub wrong: Vec<String>,
}

impl Findings {
    /// Notes that something is as it should be, or else what is wrong with it.
    fn note(&mut self, good: bool, right: impl Into<String>, wrong: impl FnOnce() -> String) {
        if good {
            self.right.push(right.into());
        } else {
            self.wrong.push(wrong());
        }
    }

    /// Notes what is right with all of many, or else what is wrong with each that is not.
    fn note_all(&mut self, right: String, wrong: Vec<String>) {
        if wrong.is_empty() {
            self.right.push(right);
        }
        self.wrong.extend(wrong);
    }
}

impl Display for Findings {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        self.right.iter().try_for_each(|line| writeln!(f, "  right  {line}"))?;
        self.wrong.iter().try_for_each(|line| writeln!(f, "  WRONG  {line}"))?;
        match self.wrong.len() {
            0 => write!(f, "Nothing to mend."),
            1 => write!(f, "1 thing to mend."),
            more => write!(f, "{more} things to mend."),
        }
    }
}

/// A file as a browser gets it.
struct Answer {
    /// Where it was found in the end.
    url: String,
    status: u16,
    headers: HeaderMap,
    /// Unpacked.
    body: Vec<u8>,
}

impl Answer {
    fn header(&self, name: &str) -> &str {
        self.headers.get(name).and_then(|value| value.to_str().ok()).unwrap_or_default()
    }

    fn kind(&self) -> &str {
        self.header("content-type").split(';').next().unwrap_or_default().trim()
    }

    fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    /// What is wrong with its status, type or compression under the name it has.
    fn faults(&self, name: &str) -> Vec<String> {
        if self.status != 200 {
            return vec![format!("{name} answers {}. Publish the whole folder again, files before the page.", self.status)];
        }
        let mut faults = Vec::new();
        let ending = name.rsplit('.').next().unwrap_or_default();
        if let Some((_, kinds)) = TYPES.iter().find(|(known, _)| *known == ending) {
            if !kinds.contains(&self.kind()) {
                let sent = if self.kind().is_empty() { "without a type".into() } else { format!("as {}", self.kind()) };
                faults.push(format!("{name} comes {sent}. Have the host send `content-type: {}`.", kinds[0]));
            }
            let packed = matches!(self.header("content-encoding"), "br" | "gzip" | "zstd");
            if ending != "png" && self.body.len() >= WORTH_COMPRESSING && !packed {
                faults.push(format!(
                    "{name} comes uncompressed, {} bytes. Let the host compress, or put {name}.br or .gz in its place with \
                     `content-encoding` br or gzip.",
                    self.body.len()
                ));
            }
        }
        // Under a name made from its content, another content is another file.
        if is_fingerprinted(name) && !name.contains(&fingerprint(&self.body)) {
            faults.push(format!("{name} is not what its name says. Switch off whatever rewrites files on the way, and publish again."));
        }
        let kept = self.header("cache-control");
        if is_fingerprinted(name) && seconds_kept(kept) < LONG {
            faults.push(format!("{name} comes with {}. Send `cache-control: public, max-age=31536000, immutable`.", shown(kept)));
        }
        if !is_fingerprinted(name) && !always_asked(kept) {
            faults.push(format!("{name} comes with {}: newer versions are not seen. Send `cache-control: no-cache`.", shown(kept)));
        }
        faults
    }
}

fn shown(cache_control: &str) -> String {
    if cache_control.is_empty() { "no `cache-control`".into() } else { format!("`cache-control: {cache_control}`") }
}

fn directives(cache_control: &str) -> impl Iterator<Item = String> {
    cache_control.split(',').map(|part| part.trim().to_lowercase())
}

fn seconds_kept(cache_control: &str) -> u64 {
    if directives(cache_control).any(|part| part == "no-cache" || part == "no-store") {
        return 0;
    }
    directives(cache_control).find_map(|part| part.strip_prefix("max-age=")?.parse().ok()).unwrap_or(0)
}

fn always_asked(cache_control: &str) -> bool {
    directives(cache_control).any(|part| matches!(part.as_str(), "no-cache" | "no-store" | "max-age=0"))
}

/// Looks at everything the app needs at `address`.
pub fn check(address: &str) -> Result<Findings> {
    let agent = Agent::new_with_config(Agent::config_builder().http_status_as_error(false).timeout_global(Some(PATIENCE)).build());
    let address = address.split(['#', '?']).next().unwrap_or_default();
    ensure!(address.starts_with("http://") || address.starts_with("https://"), "“{address}” does not begin with https:// or http://");
    let page = get(&agent, address)?;
    ensure!(page.status == 200, "{address} answers {}: there is no page", page.status);
    let text = page.text();
    let version = between(&text, "data-version=\"", "\"");
    let version = version.with_context(|| format!("{address} answers, but not with this app: its page names no version"))?;

    let mut found = Findings::default();
    found.right.push(format!("the page answers: version {version}"));
    let folder = folder(&page.url, &mut found)?;
    found.note_all("the page has its type, is compressed and asked for every time".into(), page.faults("index.html"));
    policy(&page, &text, &mut found);
    let refers = references(&text);
    let rooted: Vec<_> = refers.iter().filter(|it| it.starts_with('/') || it.contains(':')).collect();
    found.note(rooted.is_empty(), "addresses in the page are relative: it works in any folder", || {
        format!("the page refers to {rooted:?}. Switch off whatever rewrites addresses on the way.")
    });

    let worker = get(&agent, &format!("{folder}sw.js"))?;
    let kept = worker_files(&worker, version, &folder, &mut found);
    let names: BTreeSet<&str> = kept.iter().map(String::as_str).chain(refers.iter().copied()).collect();
    let mut faults = Vec::new();
    for name in names.iter().filter(|name| !name.starts_with('/') && !name.contains(':')) {
        faults.extend(get(&agent, &format!("{folder}{name}"))?.faults(name));
    }
    found.note_all(format!("{} files answer with type, compression, content and lifetime as they should", names.len()), faults);
    let nothing = get(&agent, &format!("{folder}nothing-000000000000.js"))?.status;
    found.note(matches!(nothing, 404 | 410 | 403), "what is not there is not found", || {
        format!("a file that is not there answers {nothing}, and may be kept as if it were the app. Have the host answer 404.")
    });
    Ok(found)
}

/// The folder the page lies in, by where it was found in the end.
fn folder(url: &str, found: &mut Findings) -> Result<String> {
    let (scheme, rest) = url.split_once("://").with_context(|| format!("{url} is no address"))?;
    let host = rest.split('/').next().unwrap_or_default();
    let name = if host.starts_with('[') { host.split_inclusive(']').next() } else { host.split(':').next() }.unwrap_or_default();
    let own = name == "localhost" || name.ends_with(".localhost") || name == "[::1]" || name.starts_with("127.");
    found.note(scheme == "https" || own, "browsers trust the address with use offline", || {
        "browsers keep a page for use offline only from https:// or localhost. Serve it by https.".into()
    });
    let path = &rest[host.len()..];
    let (folder, last) = path.rsplit_once('/').unwrap_or(("", ""));
    found.note(matches!(last, "" | "index.html"), format!("it lies in {folder}/"), || {
        format!("“{path}” is shown without a slash at its end, so that its files are looked for a folder higher. Redirect to “{path}/”.")
    });
    Ok(format!("{scheme}://{host}{folder}/"))
}

fn policy(page: &Answer, text: &str, found: &mut Findings) {
    let sent = page.header("content-security-policy");
    let in_page = text.contains(&policy_in_page());
    found.note(sent == POLICY || (sent.is_empty() && in_page), policy_line(sent), || {
        if sent.is_empty() {
            return "there is no content-security policy, neither sent nor in the page. Publish the page as it was built.".into();
        }
        format!("the host sends another content-security policy, `{sent}`; where it is stricter the app does not start. Send `{POLICY}`.")
    });
    let nosniff = page.header("x-content-type-options") == "nosniff";
    found.note(nosniff, "types are not guessed", || "types may be guessed. Send `x-content-type-options: nosniff` with every file.".into());
}

fn policy_line(sent: &str) -> &'static str {
    if sent.is_empty() {
        "the content-security policy is in the page (sent as a header it also keeps others from framing the page)"
    } else {
        "the content-security policy is sent"
    }
}

/// The files the service worker keeps, after a look at the worker itself.
fn worker_files(worker: &Answer, version: &str, folder: &str, found: &mut Findings) -> Vec<String> {
    let faults = worker.faults("sw.js");
    let answers = worker.status == 200;
    found.note_all("the service worker answers, is a script, and is asked for every time".into(), faults);
    if !answers {
        return Vec::new();
    }
    found.note(worker.url == format!("{folder}sw.js"), "its scope is the folder of the page", || {
        format!("the service worker is redirected to {}, which browsers refuse. Serve it beside the page.", worker.url)
    });
    let text = worker.text();
    let list = |start| between(&text, start, "]").unwrap_or_default().split(',');
    // Languages are kept once somebody reads the page in them, and have to be there until then.
    let names = list("const FILES = [").chain(list("const LANGUAGES = ["));
    let files: Vec<String> = names.map(|name| name.trim().trim_matches('"').to_owned()).filter(|name| !name.is_empty()).collect();
    found.note(!files.is_empty(), format!("it keeps {} files for use offline", files.len()), || {
        "the service worker does not say what it keeps. Publish it as it was built.".into()
    });
    found.note(text.contains(&format!("'{version}'")), "page and service worker are of one version", || {
        "page and service worker are of two versions, so that neither is kept. Publish the whole folder again, or clear the CDN's copy of both."
            .into()
    });
    files
}

/// What the page refers to.
fn references(page: &str) -> Vec<&str> {
    let after = |mark: &'static str| page.split(mark).skip(1).filter_map(|rest| rest.split('"').next());
    after(" href=\"").chain(after(" src=\"")).collect()
}

fn between<'a>(text: &'a str, start: &str, end: &str) -> Option<&'a str> {
    text.split_once(start)?.1.split_once(end).map(|(inner, _)| inner)
}

fn get(agent: &Agent, url: &str) -> Result<Answer> {
    let asked = agent.get(url).header("accept-encoding", "br, gzip").call();
    let mut response = asked.with_context(|| format!("{url} does not answer"))?;
    let raw = response.body_mut().with_config().limit(MOST).read_to_vec().with_context(|| format!("{url} breaks off"))?;
    let encoding = response.headers().get("content-encoding").and_then(|value| value.to_str().ok()).unwrap_or_default();
    let mut body = Vec::new();
    match encoding {
        "br" => brotli::Decompressor::new(&*raw, 4096).read_to_end(&mut body),
        "gzip" => flate2::read::MultiGzDecoder::new(&*raw).read_to_end(&mut body),
        "" | "identity" => raw.as_slice().read_to_end(&mut body),
        other => bail!("{url} comes as “{other}”, which was not asked for"),
    }
    .with_context(|| format!("{url} says it is {encoding} and is not"))?;
    Ok(Answer { url: response.get_uri().to_string(), status: response.status().as_u16(), headers: response.headers().clone(), body })
}
