//! What is ticked off on the gathering list.
//!
//! It isn't marked in the bakes' logs: there a mark says that something was weighed, and begins the
//! bake, while a list is taken to the shop the day before. It is kept with the settings, so that a
//! phone that is put to sleep in a shop still knows it.

use domain::bake::BakeId;

use super::Oventide;
use super::plan::running_bakes;

/// What a thing on the list is ticked off as, for one of the bakes.
pub(crate) fn tick(bake: &BakeId, thing: &str) -> String {
    format!("{}/{thing}", bake.0)
}

impl Oventide {
    /// Ticks things off, or takes that back. Ticks of bakes that are over are forgotten.
    pub(crate) fn tick_off(self, ticks: Vec<String>, on: bool) {
        let bakes = self.bakes.read_untracked();
        let known: Vec<String> = running_bakes(&bakes)
            .map(|bake| tick(&bake.id, ""))
            .collect();
        drop(bakes);
        self.change_settings(Box::new(move |to| {
            to.gathered.retain(|one| {
                !ticks.contains(one) && known.iter().any(|bake| one.starts_with(bake.as_str()))
            });
            if on {
                to.gathered.extend(ticks.iter().cloned());
            }
        }));
    }

    /// Whether all of these are ticked off.
    pub(crate) fn is_ticked_off(self, ticks: &[String]) -> bool {
        let settings = self.settings.read();
        ticks.iter().all(|one| settings.gathered.contains(one))
    }
}
