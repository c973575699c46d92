//! The alarm's sound.
//!
//! One stretch of sound, two beeps and a pause, is reckoned once and then looped
//! by the browser's audio clock. So it goes on ringing on time however slowly
//! this page's own timers run, and gets louder by a ramp that is laid down at the start.
//!
//! - A browser lets a page sound only after a tap: [`AlarmSound::unlock`] is
//!   called from every tap, because a phone call, the lock screen or an assistant
//!   can take away what the first tap opened. Between taps [`AlarmSound::wake`]
//!   tries what may be had without one, on every return to the page.
//! - On iPhones `audioSession.type = "playback"` makes the alarm sound with the
//!   ring switch off. The volume keys still rule; testing the alarm is for finding out.

mod samples;

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use gloo_timers::callback::Timeout;
use web_sys::{AudioBufferSourceNode, AudioContext, GainNode};

use self::samples::{alarm, loudness};
use crate::events::{Listening, listen, navigator, window};
use crate::js;

/// Whether the alarm can be heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SoundState {
    /// It can.
    Ready,
    /// After the next tap.
    NeedsTap,
    /// This browser has no sound.
    Unavailable,
}

/// The alarm's sound. It stops when dropped.
pub struct AlarmSound {
    inner: Rc<Inner>,
}

struct Inner {
    context: RefCell<Option<AudioContext>>,
    listening: RefCell<Option<Listening>>,
    on_change: Box<dyn Fn(SoundState)>,
    // Its clock stood still, or it would not go on: only a new one helps.
    stuck: Cell<bool>,
    looking: Cell<bool>,
    // How loud it should be ringing, if it should.
    wanted: Cell<Option<f64>>,
    playing: RefCell<Option<Playing>>,
}

struct Playing {
    source: AudioBufferSourceNode,
    gain: GainNode,
}

/// How long the clock is given to move before the context is taken for stuck.
const LOOK_AFTER_MS: u32 = 500;
/// Over how long the alarm gets louder, in s.
const ESCALATION_S: f64 = 30.0;
/// The part of its loudness that it starts with.
const FIRST_PART: f32 = 0.25;

impl AlarmSound {
    /// No sound yet; it needs a tap. Calls back whenever that may have changed.
    #[must_use]
    pub fn new(on_change: impl Fn(SoundState) + 'static) -> Self {
        Self {
            inner: Rc::new(Inner {
                context: RefCell::default(),
                listening: RefCell::default(),
                on_change: Box::new(on_change),
                stuck: Cell::default(),
                looking: Cell::default(),
                wanted: Cell::default(),
                playing: RefCell::default(),
            }),
        }
    }

    /// Opens the sound, or opens it again. To be called from within every tap.
    pub fn unlock(&self) {
        if !is_supported() {
            return;
        }
        if let Some(session) = js::get(navigator().as_ref(), "audioSession") {
            js::set(&session, "type", "playback");
        }
        let usable = self
            .inner
            .context()
            .is_some_and(|context| state(&context) != "closed");
        if !usable || self.inner.stuck.get() {
            self.inner.rebuild();
        }
        self.inner.resume();
    }

    /// Asks for what a call or the lock screen took away, without a tap: the browser may say no.
    pub fn wake(&self) {
        self.inner.resume();
    }

    /// Whether it can be heard.
    #[must_use]
    pub fn state(&self) -> SoundState {
        self.inner.state()
    }

    /// Rings, louder and louder, until [`AlarmSound::stop`]. Where the browser
    /// wants a tap first, it rings from that tap on.
    ///
    /// `volume` runs from 0 to 1.
    pub fn ring(&self, volume: f64) {
        self.inner.wanted.set(Some(volume));
        // Nobody has tapped yet, but some browsers let an app from the home screen sound all the same.
        if is_supported() && self.inner.context().is_none() {
            self.inner.rebuild();
        }
        self.inner.resume();
        self.inner.play_wanted();
    }

    /// Stops ringing.
    pub fn stop(&self) {
        self.inner.wanted.set(None);
        self.inner.silence();
    }
}

impl Drop for AlarmSound {
    fn drop(&mut self) {
        self.stop();
        self.inner.close();
    }
}

impl Inner {
    fn context(&self) -> Option<AudioContext> {
        self.context.borrow().clone()
    }

    fn state(&self) -> SoundState {
        if !is_supported() {
            return SoundState::Unavailable;
        }
        match self.context() {
            Some(context) if state(&context) == "running" && !self.stuck.get() => SoundState::Ready,
            _ => SoundState::NeedsTap,
        }
    }

    fn tell(&self) {
        (self.on_change)(self.state());
    }

    fn rebuild(self: &Rc<Self>) {
        self.close();
        self.stuck.set(false);
        let context = AudioContext::new().ok();
        *self.listening.borrow_mut() = context.as_ref().map(|context| {
            let weak = Rc::downgrade(self);
            listen(context, "statechange", move |_| {
                if let Some(inner) = weak.upgrade() {
                    inner.tell();
                }
            })
        });
        *self.context.borrow_mut() = context;
        self.play_wanted();
    }

    fn close(&self) {
        self.silence();
        self.listening.borrow_mut().take();
        if let Some(context) = self.context.borrow_mut().take() {
            // Closing what is closed rejects, and that is all right.
            js::ignore(js::call(context.as_ref(), "close", &[]));
        }
    }

    /// Asks the context to go on, and looks soon whether it does.
    fn resume(self: &Rc<Self>) {
        let Some(context) = self.context() else {
            return;
        };
        // `interrupted`, as iPhones say, can throw, reject, or never answer; the clock tells.
        js::ignore(js::call(context.as_ref(), "resume", &[]));
        if self.looking.replace(true) {
            return;
        }
        let before_s = context.current_time();
        let weak = Rc::downgrade(self);
        let look = Timeout::new(LOOK_AFTER_MS, move || {
            let Some(inner) = weak.upgrade() else {
                return;
            };
            inner.looking.set(false);
            if inner.context().is_some_and(|now| now == context) {
                // Before any tap a context rightly waits; stuck is one that a tap didn't help.
                let stands_still = context.current_time() <= before_s;
                inner.stuck.set(stands_still && had_tap());
                inner.tell();
            }
        });
        look.forget();
    }

    fn play_wanted(&self) {
        let (Some(volume), Some(context)) = (self.wanted.get(), self.context()) else {
            return;
        };
        if self.playing.borrow().is_some() {
            return;
        }
        let full = loudness(volume);
        // Without it nothing is heard; the screen and the motor carry on.
        *self.playing.borrow_mut() = play(&context, full).ok();
    }

    fn silence(&self) {
        if let Some(playing) = self.playing.borrow_mut().take() {
            // Stopping what has ended throws, and that is all right.
            let _ = js::call(playing.source.as_ref(), "stop", &[]);
            let _ = playing.gain.disconnect();
        }
    }
}

fn play(context: &AudioContext, full: f32) -> Result<Playing, js::Thrown> {
    let samples = alarm(f64::from(context.sample_rate()));
    let length = u32::try_from(samples.len()).unwrap_or(u32::MAX);
    let buffer = context.create_buffer(1, length, context.sample_rate())?;
    buffer.copy_to_channel(&samples, 0)?;
    let source = context.create_buffer_source()?;
    source.set_buffer(Some(&buffer));
    source.set_loop(true);
    let gain = context.create_gain()?;
    let (loudness, now_s) = (gain.gain(), context.current_time());
    loudness.set_value_at_time(full * FIRST_PART, now_s)?;
    loudness.linear_ramp_to_value_at_time(full, now_s + ESCALATION_S)?;
    source.connect_with_audio_node(&gain)?;
    gain.connect_with_audio_node(&context.destination())?;
    source.start()?;
    Ok(Playing { source, gain })
}

fn is_supported() -> bool {
    js::has(window().as_ref(), "AudioContext")
}

/// The state as text: iPhones have one, "interrupted", that the standard's list lacks.
fn state(context: &AudioContext) -> String {
    let state = js::get(context.as_ref(), "state");
    state
        .and_then(|state| state.as_string())
        .unwrap_or_default()
}

/// Whether the baker has tapped the page, as far as the browser says.
fn had_tap() -> bool {
    let activation = js::get(navigator().as_ref(), "userActivation");
    let said = activation.and_then(|activation| js::get(&activation, "hasBeenActive"));
    said.and_then(|said| said.as_bool()).unwrap_or(true)
}
