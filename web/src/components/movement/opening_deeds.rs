//! How a score is opened: what the address names, what is kept, what is brought. What was open before comes back where it fails.

use crate::browser::given::{self, BroughtFile};
use crate::browser::score_worker;
use crate::components::movement::deeds::Deeds;
use crate::components::movement::held;
use crate::components::movement::music_deeds::print_ahead;
use crate::state::movement::{ComesFrom, OnItsWay, OpenMovement, link, standing_out};
use crate::state::store::left;
use crate::store::scores;
use crate::words;
use crookwise_opened::{Answer, Ask, Correction};
use leptos::task::spawn_local;

/// The demo movement, beside the page.
const DEMO: &str = "demo.musicxml";

impl Deeds {
    pub(super) fn open_what_the_address_names(self, pairs: &str) {
        let movement = self.movement;
        let now = movement.open.map(|open| open.source.clone());
        match link::read(pairs) {
            Err(_) => self.fail(words::movement::UNKNOWN_LINK),
            Ok(None) => {
                // What was open last, where nobody has left it.
                let last = scores::left().open;
                if now.is_some() {
                    self.put_away();
                } else if !last.is_empty() && movement.on_its_way.with_untracked(Option::is_none) {
                    self.session.whereabouts.score.set(last);
                }
            }
            Ok(Some((source, place))) if Some(&source) == now.as_ref() => self.arrive(&source, &place),
            Ok(Some((source, place))) => spawn_local(async move {
                match self.open_source(source.clone(), &place.title).await {
                    Ok(()) => self.arrive(&source, &place),
                    Err(why) => self.fail(why),
                }
            }),
        }
    }

    /// Opens what came with the app, or is kept; `title` is what its link calls it.
    async fn open_source(self, source: ComesFrom, title: &str) -> Result<(), String> {
        let missing = || match &source {
            ComesFrom::Demo => words::PART_MISSING.to_owned(),
            ComesFrom::File(_) => words::movement::not_here(title),
        };
        let opened = match file_of(&source).await {
            // It can be asked for again.
            Some(given) => self
                .open_as(given, Some(source.clone()))
                .await
                .inspect_err(|_| self.session.whereabouts.score.set(String::new())),
            None => Err(missing()),
        };
        opened.inspect_err(|_| scores::leave(|left| left.open.clear()))
    }

    /// Opens what was given; where that is no score, what was open before comes back.
    pub(super) async fn open(self, given: BroughtFile) {
        let before = self.movement.open.map(|open| open.source.clone());
        if let Err(why) = self.open_as(given, None).await {
            if let Some(before) = before {
                // What it says is less than why.
                let _ = self.open_source(before, "").await;
            }
            self.fail(why);
        }
    }

    async fn open_as(self, given: BroughtFile, source: Option<ComesFrom>) -> Result<(), String> {
        let movement = self.movement;
        movement.problem.set(None);
        movement.said.set(None);
        if movement.on_its_way.is_some() {
            score_worker::stop();
        }
        self.put_away();
        let mine = movement.openings.update(|openings| {
            *openings += 1;
            *openings
        });
        movement.on_its_way.set(Some(OnItsWay { name: given.name.clone(), hundredths: 0 }));
        let mut answer = held::open(&given.bytes, String::new()).await;
        if answer.is_none() && movement.openings.get_untracked() == mine {
            // On a busy machine a worker now and then does not come up: another is given the file before that is said.
            answer = held::open(&given.bytes, String::new()).await;
        }
        if movement.openings.get_untracked() != mine {
            // It was stopped, or another came.
            return Ok(());
        }
        movement.on_its_way.set(None);
        match answer {
            Some(Answer::Score(summary)) => {
                let is_named = source.is_some();
                let source = source.unwrap_or_else(|| ComesFrom::File(summary.id.clone()));
                let known = self.known(&summary.id).await;
                let file = known.as_ref().map_or_else(|| given.name.clone(), |known| known.file.clone());
                let left = scores::left();
                let left = left.of(match &source {
                    ComesFrom::Demo => left::DEMO,
                    ComesFrom::File(id) => id,
                });
                let corrections = match known {
                    Some(known) => known.corrections,
                    None => left.map(|left| left.corrections.clone()).unwrap_or_default(),
                };
                let by_file = standing_out(&summary);
                let mut open = OpenMovement { source: source.clone(), file, summary: *summary };
                if corrections.is_empty() {
                    print_ahead(self.music, &open.summary, left);
                }
                let is_kept = source == ComesFrom::Demo || self.keep(&open, &corrections, &given.bytes).await;
                let corrections = Correction::read(&corrections);
                if !corrections.is_empty() {
                    let text = Correction::write(&corrections);
                    let mut corrected = held::ask(&Ask::Correct(text.clone())).await;
                    if corrected.is_none() {
                        corrected = held::open(&given.bytes, text).await;
                    }
                    if let Some(Answer::Score(corrected)) = corrected {
                        open.summary = *corrected;
                    }
                }
                if !is_kept {
                    held::keep_file(given.bytes).await;
                }
                if movement.openings.get_untracked() != mine {
                    return Ok(());
                }
                movement.show(open, corrections, left);
                self.music.arrives_at.set(movement.at.get_untracked());
                movement.list_first(&by_file);
                scores::leave(|all| all.open = link::pairs(Some(&source)));
                // What the address named it leads to already, perhaps to a place of it.
                if !is_named {
                    self.go_to(&source);
                }
                self.list();
                Ok(())
            }
            Some(Answer::No(why)) => Err(why),
            _ => Err(words::movement::NO_WORKER.to_owned()),
        }
    }
}

/// The file of what came with the app, or is kept; nothing where it is not here.
pub(super) async fn file_of(source: &ComesFrom) -> Option<BroughtFile> {
    match source {
        ComesFrom::Demo => given::of_site(DEMO).await,
        ComesFrom::File(id) => {
            let bytes = scores::file(id).await?;
            Some(BroughtFile { name: String::new(), bytes })
        }
    }
}
