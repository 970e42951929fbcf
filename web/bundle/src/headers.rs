//! What is said with each file: for our own server, and as a file for hosts that read one.

use crate::naming::is_fingerprinted;

/// Only what comes from the page's own folder, nothing inline, nothing evaluated but WebAssembly. Pictures may also be
/// made in the page (`blob:`), to save them.
pub const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
    img-src 'self' blob:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; \
    form-action 'none'; frame-ancestors 'none'";

/// [`POLICY`] for a `meta` element, where `frame-ancestors` has no meaning and is complained of.
#[must_use]
pub fn policy_in_page() -> String {
    POLICY.split("; ").filter(|rule| !rule.starts_with("frame-ancestors")).collect::<Vec<_>>().join("; ")
}

/// The same for every file.
pub const ALWAYS: [(&str, &str); 6] = [
    ("content-security-policy", POLICY),
    ("x-content-type-options", "nosniff"),
    ("referrer-policy", "no-referrer"),
    ("permissions-policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
];

/// How long a file may be kept without asking: for ever under a name made from its content, else not at all.
#[must_use]
pub fn cache_control(name: &str) -> &'static str {
    if is_fingerprinted(name) { "public, max-age=31536000, immutable" } else { "no-cache" }
}

/// The text of `_headers`, which several static hosts read. Each path is named once and without patterns, since hosts
/// differ in what they do when two rules speak of one header.
#[must_use]
pub fn file_for_hosts<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let mut text = String::from("/*\n");
    for (header, value) in ALWAYS {
        text.push_str(&format!("  {header}: {value}\n"));
    }
    for name in ["", "index.html"].into_iter().chain(names.filter(|name| *name != "index.html")) {
        text.push_str(&format!("/{name}\n  cache-control: {}\n", cache_control(name)));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_repeats_the_policy_without_what_it_cannot_say() {
        assert_eq!(format!("{}; frame-ancestors 'none'", policy_in_page()), POLICY);
    }

    #[test]
    fn nothing_inline_or_evaluated_or_foreign_is_allowed() {
        for never in ["'unsafe-inline'", "'unsafe-eval'", "http:", "https:", "data:", "*"] {
            assert!(!POLICY.contains(never), "{never}");
        }
    }

    #[test]
    fn hosts_are_told_to_keep_hashed_files_and_to_ask_for_the_rest() {
        let text = file_for_hosts(["app-ba7816bf8f01.js", "index.html", "sw.js"].into_iter());
        let rules = text.split_once("\n/\n").unwrap().1;
        assert_eq!(
            rules,
            "  cache-control: no-cache\n\
             /index.html\n  cache-control: no-cache\n\
             /app-ba7816bf8f01.js\n  cache-control: public, max-age=31536000, immutable\n\
             /sw.js\n  cache-control: no-cache\n"
        );
        assert!(text.starts_with("/*\n  content-security-policy: default-src 'none'; script-src 'self'"));
    }
}
