//! What happened at a bake goes into its log: decided, stored, and only then shown.

use domain::bake::{Bake, BakeId, Entry, Refusal};
use domain::units::Moment;
use platform::clock;
use platform::store::StoreError;

use super::Oventide;

/// What finds the entries that something comes to at a bake, or why it can't be.
type Decide<'a> = &'a dyn Fn(&Bake, Moment) -> Result<Vec<Entry>, Refusal>;

/// What was entered into a log.
pub(super) struct Entered {
    /// The bake without it.
    pub(super) before: Bake,
    /// The bake with it.
    pub(super) after: Bake,
    /// When it was decided.
    pub(super) at: Moment,
}

impl Oventide {
    /// Enters what is decided on the newest log; nothing where that comes to nothing.
    pub(super) async fn enter(
        self,
        id: &BakeId,
        decide: Decide<'_>,
    ) -> Result<Option<Entered>, Refusal> {
        // Another tab can write in between, but hardly ever twice.
        let mut tries = 5;
        loop {
            if !self.is_silent() {
                self.save_bake(id).await;
            }
            let Some(before) = self.bake(id) else {
                return Ok(None);
            };
            let at = clock::now();
            let entries = decide(&before, at)?;
            if entries.is_empty() {
                // What it was about has changed since the last look.
                self.renew();
                return Ok(None);
            }
            let first = before.next_place();
            if !self.keep(id, first, &entries).await {
                tries -= 1;
                if tries > 0 {
                    self.reload().await;
                    continue;
                }
                self.leave_unsaved(id, first, StoreError::Conflict);
            }
            let mut after = before.clone();
            after.append(entries);
            self.show_bake(after.clone());
            self.renew();
            return Ok(Some(Entered { before, after, at }));
        }
    }

    pub(super) fn bake(self, id: &BakeId) -> Option<Bake> {
        let bakes = self.bakes.read_untracked();
        bakes.iter().find(|bake| bake.id == *id).cloned()
    }

    fn show_bake(self, bake: Bake) {
        self.bakes.update(|bakes| {
            if let Some(shown) = bakes.iter_mut().find(|shown| shown.id == bake.id) {
                *shown = bake;
            }
        });
    }

    /// Makes entries durable, or leaves them to be saved later; behind others that
    /// wait for that they wait too. False when another tab wrote in their place.
    pub(super) async fn keep(self, id: &BakeId, first: u32, entries: &[Entry]) -> bool {
        if self.unsaved_from(id).is_some() {
            return true;
        }
        if self.is_silent() {
            self.inner().unsaved.borrow_mut().set_first(id, Some(first));
            return true;
        }
        match self.store().append(id, first, entries).await {
            Ok(()) => {
                self.stored();
                self.ask_to_persist();
            }
            Err(StoreError::Conflict) => return false,
            Err(error) => self.leave_unsaved(id, first, error),
        }
        true
    }

    /// Stores what could not be stored of a bake, if there is any.
    ///
    /// Where another tab wrote in its place, reading again puts it behind that.
    pub(super) async fn save_bake(self, id: &BakeId) {
        let mut tries = 3;
        while tries > 0 {
            let (Some(first), Some(bake)) = (self.unsaved_from(id), self.bake(id)) else {
                return;
            };
            let rest = &bake.log()[first as usize..];
            match self.store().append(id, first, rest).await {
                Ok(()) => {
                    // What the baker did while this was on its way is next.
                    let stored = u32::try_from(rest.len()).unwrap_or(u32::MAX);
                    let next = first.saturating_add(stored);
                    let more = self.bake(id).is_some_and(|bake| bake.next_place() > next);
                    let first = more.then_some(next);
                    self.inner().unsaved.borrow_mut().set_first(id, first);
                    self.stored();
                    self.ask_to_persist();
                }
                Err(StoreError::Conflict) => {
                    tries -= 1;
                    if !self.reload().await {
                        return;
                    }
                }
                Err(error) => return self.lose_storage(error),
            }
        }
        self.lose_storage(StoreError::Conflict);
    }

    fn unsaved_from(self, id: &BakeId) -> Option<u32> {
        self.inner().unsaved.borrow().first_of(id)
    }

    fn leave_unsaved(self, id: &BakeId, first: u32, why: StoreError) {
        let inner = self.inner();
        inner.unsaved.borrow_mut().set_first(id, Some(first));
        self.lose_storage(why);
    }
}
