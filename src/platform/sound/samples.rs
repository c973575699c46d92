//! The alarm's sound as numbers: what is played, and how loud.

use std::f64::consts::TAU;

use domain::trig::sin;

/// The gain for a volume from 0 to 1. Ears hear ratios, so half way is a quarter of the gain.
pub(super) fn loudness(volume: f64) -> f32 {
    let volume = volume.clamp(0.0, 1.0);
    (volume * volume) as f32
}

/// Two beeps and a pause.
///
/// The base tones lie where small loudspeakers are loudest; the harmonics above
/// help it through the noise of an extractor. Common practice, no source.
pub(super) fn alarm(rate: f64) -> Vec<f32> {
    let mut samples = silence(1.2, rate);
    beep(&mut samples, rate, 0.0, 0.2, 2_100.0);
    beep(&mut samples, rate, 0.3, 0.2, 2_600.0);
    samples
}

fn silence(length_s: f64, rate: f64) -> Vec<f32> {
    vec![0.0; (length_s * rate) as usize]
}

/// Base tone and two harmonics; together they never pass full scale.
const PARTIALS: [(f64, f64); 3] = [(1.0, 0.65), (2.0, 0.22), (3.0, 0.13)];
/// Beeps that begin and end at once click; this long they swell and fade, in s.
const EDGE_S: f64 = 0.008;

fn beep(samples: &mut [f32], rate: f64, from_s: f64, length_s: f64, tone_hz: f64) {
    let first = (from_s * rate) as usize;
    let count = (length_s * rate) as usize;
    for (index, sample) in samples.iter_mut().skip(first).take(count).enumerate() {
        let at_s = index as f64 / rate;
        let edge = (at_s / EDGE_S)
            .min((length_s - at_s) / EDGE_S)
            .clamp(0.0, 1.0);
        let sum: f64 = PARTIALS
            .iter()
            .map(|(times, part)| part * sin(TAU * tone_hz * times * at_s))
            .sum();
        *sample = (edge * sum) as f32;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RATE: f64 = 48_000.0;

    #[test]
    fn the_alarm_never_passes_full_scale_and_ends_in_silence() {
        let samples = alarm(RATE);
        assert!(samples.iter().all(|sample| sample.abs() <= 1.0));
        let loud = samples.iter().any(|sample| sample.abs() > 0.5);
        assert!(loud, "it can be heard");
        let end = &samples[(0.51 * RATE) as usize..];
        assert!(end.iter().all(|&sample| sample == 0.0));
    }

    #[test]
    fn beeps_begin_and_end_without_a_click() {
        let mut samples = silence(0.2, RATE);
        beep(&mut samples, RATE, 0.0, 0.2, 2_600.0);
        let first = samples.first().copied().unwrap_or(1.0);
        let last = samples.last().copied().unwrap_or(1.0);
        assert!(first.abs() < 0.01 && last.abs() < 0.01);
    }

    #[test]
    fn louder_settings_are_louder() {
        assert_eq!(loudness(0.0), 0.0);
        assert_eq!(loudness(1.0), 1.0);
        assert_eq!(loudness(7.0), 1.0);
        assert!(loudness(0.5) < loudness(0.6));
    }
}
