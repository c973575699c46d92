//! What the screens show, and the only way to change it.
//!
//! [`Oventide`] is a handful of signals, given to every page through the
//! context. Pages read signals and call its verbs; the verbs store first and
//! show afterwards.

mod alarms;
mod answers;
mod archive;
mod asking;
mod effects;
mod entering;
mod gathered;
mod jump;
mod late;
mod library;
mod manuscripts;
mod notes;
pub(crate) mod plan;
mod starting;
mod undoing;
mod unsaved;
mod view;
mod watch;

use std::cell::{Cell, OnceCell, RefCell};
use std::collections::VecDeque;
use std::rc::Rc;

use domain::bake::{AlarmId, Bake, BakeId};
use domain::formula::{Formula, FormulaId};
use domain::notebook::Note;
use domain::units::Moment;
use leptos::prelude::*;
use platform::clock;
use platform::leader::Leader;
use platform::persist::Persistence;
use platform::sound::{AlarmSound, SoundState};
use platform::store::{SetAside, Settings, Store};
use platform::tabs::Tabs;
use platform::vibration::Shaking;
use platform::wake_lock::{WakeLock, WakeState};

pub(crate) use alarms::{Ringing, oven_of};
pub(crate) use answers::Answer;
pub(crate) use archive::ArchiveOutcome;
pub(crate) use asking::in_kitchen;
pub(crate) use effects::{Cause, Effect, Liquid, Shift, TableShift};
pub(crate) use gathered::tick;
pub(crate) use jump::ClockJump;
pub(crate) use late::Late;
pub(crate) use plan::{Change, Planned};
pub(crate) use undoing::{Back, Named};
pub(crate) use view::{BakeView, states};

use crate::reactive::{Memo, RwSignal};
use crate::route::Route;
use plan::{Keeping, Look, running_bakes};
use unsaved::{Sight, Task, Unsaved};

/// How storing goes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Health {
    /// Everything is stored.
    Sound,
    /// Writing failed: the app goes on in memory.
    Unsaved(platform::store::StoreError),
    /// The storage could never be read, so what is in it isn't shown: the app goes on in memory.
    Unread(platform::store::StoreError),
}

/// What became of the first look into the storage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Loading {
    /// Still looking.
    Opening,
    /// What is shown is what is stored, or the standing warning says why not.
    Ready,
}

/// Everything the screens show. It is copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub(crate) struct Oventide {
    /// The present, to the second, for clocks.
    pub(crate) now: RwSignal<Moment>,
    /// The moment that forecasts are reckoned for: renewed every quarter of a
    /// minute, when something falls due, and when anything happens.
    pub(crate) beat: RwSignal<Moment>,
    /// Where the baker is.
    pub(crate) route: RwSignal<Route>,
    /// Whether the storage has been read.
    pub(crate) loading: RwSignal<Loading>,
    /// Where the half of the app is that comes later.
    pub(crate) late: RwSignal<Late>,
    /// The starters and the baker's own formulas.
    pub(crate) formulas: RwSignal<Vec<Formula>>,
    /// Formulas that are still being written, as they are stored.
    pub(crate) manuscripts: RwSignal<Vec<(String, String)>>,
    /// Every bake on this phone, newest last.
    pub(crate) bakes: RwSignal<Vec<Bake>>,
    /// What the baker wrote about finished bakes.
    pub(crate) notes: RwSignal<Vec<Note>>,
    /// The kitchen and the preferences.
    pub(crate) settings: RwSignal<Settings>,
    /// Records that can't be read.
    pub(crate) set_aside: RwSignal<Vec<SetAside>>,
    /// How storing goes.
    pub(crate) health: RwSignal<Health>,
    /// Whether the browser promised to keep the data.
    pub(crate) persistence: RwSignal<Option<Persistence>>,
    /// What the last thing asked led to, in words.
    pub(crate) answer: RwSignal<Option<Answer>>,
    /// Alarms the baker has just stopped: silent, while that is on its way into the log.
    hearing: RwSignal<Vec<(BakeId, AlarmId)>>,
    /// Since when the alarm is being tested, if it is.
    testing: RwSignal<Option<Moment>>,
    /// What rings.
    pub(crate) ringing: RwSignal<Vec<Ringing>>,
    /// Whether the alarm can be heard.
    pub(crate) sound: RwSignal<SoundState>,
    /// The jump of the phone's clock, until the baker has said what it means.
    pub(crate) clock_jump: RwSignal<Option<ClockJump>>,
    /// Whether the screen is kept awake.
    pub(crate) awake: RwSignal<WakeState>,
    /// Whether the whole app lies in the cache.
    pub(crate) offline_ready: RwSignal<bool>,
    /// Whether a newer version waits.
    pub(crate) update_ready: RwSignal<bool>,
    /// Running bakes as the screens need them, reckoned once a beat.
    pub(crate) views: Memo<Vec<BakeView>>,
    /// The plan of all running bakes, if there is one.
    pub(crate) plan: RwSignal<Option<Planned>>,
    /// What moved in it lately, newest first.
    pub(crate) changes: RwSignal<Vec<Change>>,
    /// Whether the newest of these is still to be told: until the baker does something else.
    pub(crate) tells_change: RwSignal<bool>,
    /// Whether something baked already when it was planned first, and nobody knows what was planned of it before.
    pub(crate) planned_anew: RwSignal<bool>,
    inner: StoredValue<Rc<Inner>, LocalStorage>,
}

/// What isn't shown but has to live as long as the app.
struct Inner {
    store: OnceCell<Store>,
    starters: OnceCell<Vec<Formula>>,
    sound: AlarmSound,
    wake_lock: RefCell<Option<WakeLock>>,
    tabs: RefCell<Option<Tabs>>,
    updates: RefCell<Option<platform::offline::Updates>>,
    tickers: RefCell<Vec<clock::Ticker>>,
    next_due: RefCell<Option<clock::Once>>,
    // What uses the storage, in turn; whether something does now; whether anything failed meanwhile.
    waiting: RefCell<VecDeque<Task>>,
    working: Cell<bool>,
    failed: Cell<bool>,
    // Whether something was stored of which the other tabs don't know yet.
    has_news: Cell<bool>,
    // Whether the storage was asked and didn't answer in time, and whether it is being tried again beside all else.
    silent: Cell<bool>,
    retrying: Cell<bool>,
    unsaved: RefCell<Unsaved>,
    keeping: RefCell<Keeping>,
    hiding: RefCell<Option<platform::page::Hiding>>,
    sight: Cell<Sight>,
    // The settings as they are stored, if they are.
    settings: RefCell<Option<Settings>>,
    leader: RefCell<Option<Leader>>,
    // The bake that the Bench shows, while it shows one, and the one that it showed before, with when that was last.
    on_bench: RefCell<Option<BakeId>>,
    left: RefCell<Option<(BakeId, Moment)>>,
    leads: RefCell<bool>,
    drift: RefCell<clock::Drift>,
    asked_to_persist: RefCell<bool>,
    sounding: RefCell<bool>,
    shaking: RefCell<Option<Shaking>>,
    // Notifications that are shown, each with how often it came again.
    told: RefCell<Vec<(String, usize)>>,
}

impl Inner {
    /// The formulas that come with the app, read once.
    fn starters(&self) -> &[Formula] {
        self.starters.get_or_init(platform::store::starters)
    }
}

impl Oventide {
    /// An app that has not read its storage yet.
    pub(crate) fn new() -> Self {
        let now = clock::now();
        let beat = RwSignal::new(now);
        let bakes = RwSignal::new(Vec::<Bake>::new());
        let plan = RwSignal::new(None::<Planned>);
        let sound = RwSignal::new(SoundState::NeedsTap);
        // Apart from the plan, which is made of what is reckoned here and is no reason to reckon it again.
        let late = RwSignal::new(Late::Coming);
        let reckoned = Memo::new(move |_| {
            let mut views = view::views(&bakes.read(), beat.get());
            if late.get() == Late::Here {
                view::with_stood(&mut views);
            }
            views
        });
        let inner = Inner {
            store: OnceCell::new(),
            starters: OnceCell::new(),
            sound: AlarmSound::new(move |state| {
                if sound.get_untracked() != state {
                    sound.set(state);
                }
            }),
            wake_lock: RefCell::default(),
            tabs: RefCell::default(),
            updates: RefCell::default(),
            tickers: RefCell::default(),
            next_due: RefCell::default(),
            waiting: RefCell::default(),
            working: Cell::default(),
            failed: Cell::default(),
            has_news: Cell::default(),
            silent: Cell::default(),
            retrying: Cell::default(),
            unsaved: RefCell::default(),
            keeping: RefCell::default(),
            hiding: RefCell::default(),
            leader: RefCell::default(),
            sight: Cell::new(Sight::Never),
            settings: RefCell::default(),
            on_bench: RefCell::default(),
            left: RefCell::default(),
            leads: RefCell::default(),
            drift: RefCell::default(),
            asked_to_persist: RefCell::default(),
            sounding: RefCell::default(),
            shaking: RefCell::default(),
            told: RefCell::default(),
        };
        sound.set(inner.sound.state());
        Self {
            now: RwSignal::new(now),
            beat,
            route: RwSignal::new(Route::read(&platform::page::current_hash())),
            loading: RwSignal::new(Loading::Opening),
            late,
            formulas: RwSignal::new(Vec::new()),
            manuscripts: RwSignal::new(Vec::new()),
            bakes,
            notes: RwSignal::new(Vec::new()),
            settings: RwSignal::new(Settings::default()),
            set_aside: RwSignal::new(Vec::new()),
            health: RwSignal::new(Health::Sound),
            persistence: RwSignal::new(None),
            answer: RwSignal::new(None),
            hearing: RwSignal::new(Vec::new()),
            testing: RwSignal::new(None),
            ringing: RwSignal::new(Vec::new()),
            sound,
            clock_jump: RwSignal::new(None),
            awake: RwSignal::new(WakeState::Released),
            offline_ready: RwSignal::new(false),
            update_ready: RwSignal::new(false),
            plan,
            changes: RwSignal::new(Vec::new()),
            tells_change: RwSignal::new(false),
            planned_anew: RwSignal::new(false),
            views: Memo::new(move |_| view::by_plan(&reckoned.read(), plan.read().as_ref())),
            inner: StoredValue::new_local(Rc::new(inner)),
        }
    }

    /// Starts everything that goes on while the app is open.
    pub(crate) fn begin(self) {
        // First, so that the browser opens the storage while the rest is being set up.
        self.open_storage();
        if self.route.read_untracked().is_late() {
            self.fetch_late();
        }
        self.watch_time();
        self.watch_page();
        self.watch_plan();
        self.watch_alarms();
    }

    /// The Bench shows this bake, or none any more.
    pub(crate) fn show_on_bench(self, bake: Option<BakeId>) {
        let inner = self.inner();
        if *inner.on_bench.borrow() == bake {
            return;
        }
        if let Some(before) = inner.on_bench.replace(bake) {
            *inner.left.borrow_mut() = Some((before, clock::now()));
        }
    }

    /// Whether the Bench shows a bake, or when it last did.
    fn look_at(self, bake: &BakeId) -> Look {
        let inner = self.inner();
        if inner.on_bench.borrow().as_ref() == Some(bake) {
            return Look::Goes;
        }
        let left = inner.left.borrow();
        let left = left.as_ref().filter(|(left, _)| left == bake);
        Look::Went(left.map(|&(_, at)| at))
    }

    fn inner(self) -> Rc<Inner> {
        self.inner.get_value()
    }

    /// The formula of that name.
    pub(crate) fn formula(self, id: &FormulaId) -> Option<Formula> {
        let formulas = self.formulas.read();
        formulas.iter().find(|formula| formula.id == *id).cloned()
    }

    /// The running bake of that name as the screens need it.
    pub(crate) fn view(self, id: &BakeId) -> Option<BakeView> {
        let views = self.views.read();
        views.iter().find(|view| view.bake.id == *id).cloned()
    }

    /// Whether any bake runs.
    pub(crate) fn is_baking(self) -> bool {
        running_bakes(&self.bakes.read()).next().is_some()
    }
}

/// The app's state, from anywhere below [`crate::app::App`].
pub(crate) fn oventide() -> Oventide {
    use_context().expect("`App` provides the state before it draws any page")
}
