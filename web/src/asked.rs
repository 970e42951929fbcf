//! What a link asks a tool, on its way there; and how the tools that are open are set, for a link to ask the same.

use crate::bench::Bench;
use crate::follow::effect;
use leptos::prelude::*;
use trialfit_core::share::link::{Asked, Sought, Tool};

impl Bench {
    /// A tool will be opened, set like this; a search among parts asks that.
    pub fn want(self, asked: Asked, sought: Sought) {
        self.wanted.set_value(Some(asked));
        self.sought.set(sought);
    }

    /// What was asked of this tool; once, since after that it is in the user's hands.
    pub fn wanted(self, tool: Tool) -> Option<Asked> {
        self.wanted.try_update_value(|wanted| if wanted.is_some_and(|asked| asked.tool == tool) { wanted.take() } else { None }).flatten()
    }

    /// Knows how a tool is set for as long as it is open.
    pub fn knows(self, tool: Tool, set: impl Fn() -> Asked + 'static) {
        let forget = move |tools: &mut Vec<Asked>| tools.retain(|other| other.tool != tool);
        effect(move |_| {
            let set = set();
            self.tools.update(|tools| {
                forget(tools);
                tools.push(set);
            });
        });
        on_cleanup(move || self.tools.update(forget));
    }
}
