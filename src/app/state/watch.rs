//! What goes on while the app is open: time passes, the baker comes and goes, newer versions arrive.

use domain::units::Moment;
use platform::clock;
use platform::leader::Leader;
use platform::tabs::Tabs;
use platform::wake_lock::WakeLock;

use super::{Health, Loading, Oventide};
use crate::reactive::effect;
use crate::route::Route;

impl Oventide {
    pub(super) fn watch_time(self) {
        let ticker = clock::every(250, move || self.tick());
        self.inner().tickers.borrow_mut().push(ticker);
    }

    fn tick(self) {
        self.watch_clock();
        let now = clock::now();
        let whole_second = |moment: Moment| moment.epoch_ms().div_euclid(1000);
        let shown = self.now.get_untracked();
        if whole_second(now) == whole_second(shown) {
            return;
        }
        self.now.set(now);
        let beat = self.beat.get_untracked();
        let views = self.views.read_untracked();
        let mut due = views.iter().filter_map(|view| view.next_due);
        let fell_due = due.any(|due| due <= now);
        let stale = (now - beat).get().abs() >= 0.25;
        if fell_due || stale {
            self.beat.set(now);
            self.save_what_is_unsaved();
            self.seek_late();
        }
    }

    /// Reckons everything again, now.
    pub(super) fn renew(self) {
        let now = clock::now();
        self.now.set(now);
        self.beat.set(now);
    }

    pub(super) fn watch_page(self) {
        platform::page::on_hash_change(move || {
            let to = Route::read(&platform::page::current_hash());
            // Whoever is there already isn't led there again, or what they read would be drawn anew.
            if *self.route.read_untracked() != to {
                self.route.set(to);
            }
            self.answer.set(None);
            self.seek_late();
            platform::page::scroll_to_top();
        });
        // A phone that slept finds out here what fell due meanwhile.
        platform::page::on_return(move || {
            self.renew();
            self.save_what_is_unsaved();
            self.seek_late();
            self.inner().sound.wake();
            self.claim_lead();
        });
        platform::page::on_gesture(move || self.inner().sound.unlock());
        let tabs = Tabs::new(move || self.read_again());
        *self.inner().tabs.borrow_mut() = Some(tabs);
        let updates = platform::offline::Updates::register(
            move || self.offline_ready.set(true),
            move || self.update_ready.set(true),
        );
        *self.inner().updates.borrow_mut() = Some(updates);
        // Before the storage is read, or while it can't be, nobody knows whether nothing bakes. What bakes here
        // without being stored is known to no other tab.
        effect(move || {
            let known =
                self.loading.get() == Loading::Ready && *self.health.read() == Health::Sound;
            let baking = self.is_baking();
            if let Some(updates) = self.inner().updates.borrow().as_ref() {
                updates.hold((known || baking).then_some(baking));
            }
        });
        let leader = Leader::new(move |leads| {
            self.inner().leads.replace(leads);
            self.renew();
        });
        *self.inner().leader.borrow_mut() = Some(leader);
        let wake_lock = WakeLock::new(move |state| self.awake.set(state));
        *self.inner().wake_lock.borrow_mut() = Some(wake_lock);
        effect(move || {
            let runs = !self.views.read().is_empty();
            if let Some(lock) = self.inner().wake_lock.borrow().as_ref() {
                lock.keep(runs);
            }
        });
    }

    /// Whether the page could be loaded again without losing anything.
    pub(crate) fn can_update(self) -> bool {
        !self.is_baking() && !self.has_unsaved()
    }

    /// Changes to the newer version that waits, unless a bake runs or something isn't stored yet.
    pub(crate) fn update_now(self) {
        if !self.can_update() {
            return;
        }
        if let Some(updates) = self.inner().updates.borrow().as_ref() {
            updates.apply();
        }
    }
}
