//! What is open goes out as files.

use crate::browser::files;
use crate::components::movement::deeds::Deeds;
use crate::state::kept::Watched;
use crate::state::movement::audit_table;
use crate::words::{self, Names};
use crookwise_opened::{Answer, Ask, OutPitch};
use leptos::prelude::untrack;
use leptos::task::spawn_local;

impl Deeds {
    /// Saves the chosen parts as MusicXML.
    pub fn save_musicxml(self, pitch: OutPitch) {
        if matches!(&pitch, OutPitch::WrittenFor(label) if label.trim().is_empty()) {
            return self.movement.file_problem.set(Some(words::movement::LABEL_MISSING.to_owned()));
        }
        let name = words::movement::file_name(&self.title(), &pitch);
        let ask = Ask::Out { staves: self.movement.chosen.get_untracked(), pitch };
        self.save(ask, format!("{name}.musicxml"), self.movement.file_problem);
    }

    /// Saves the chosen parts as MIDI.
    pub fn save_midi(self) {
        let ask = Ask::Midi { staves: self.movement.chosen.get_untracked() };
        self.save(ask, format!("{}.mid", self.title()), self.movement.file_problem);
    }

    /// Saves the audit as a table, its notes named as on the screen.
    pub fn save_csv(self, names: Names) {
        let movement = self.movement;
        let table = movement.audit.with_untracked(|audit| {
            let audit = audit.as_deref().unwrap_or_default();
            audit_table::csv(audit, &|bar| untrack(|| movement.printed(bar)), names)
        });
        let saved = files::save_bytes(&format!("{}.csv", self.title()), table.as_bytes());
        movement.problem.set((!saved).then(|| words::NO_FILES.to_owned()));
    }

    fn title(self) -> String {
        self.movement.open.with_untracked(|open| {
            let title =
                open.as_ref().map(|open| words::movement::title(&open.summary.title, &open.file).to_owned());
            title.unwrap_or_default()
        })
    }

    /// Saves what is answered under a name; where nothing is, the reason is told.
    fn save(self, ask: Ask, name: String, problem: Watched<Option<String>>) {
        problem.set(None);
        spawn_local(async move {
            problem.set(match self.ask(&ask).await {
                Some(Answer::File(bytes)) => {
                    (!files::save_bytes(&name, &bytes)).then(|| words::NO_FILES.to_owned())
                }
                Some(Answer::No(why)) => Some(why),
                // That nothing answers has been said.
                _ => return,
            });
        });
    }
}
