//! Where a smooth function crosses zero, in few evaluations.

/// Where `function` crosses zero between two places where its signs differ, to `tolerance`.
///
/// False position with Illinois' correction: where one end stays, its value is halved, so that the other one has to
/// move (M. Dowell and P. Jarratt, "A modified regula falsi method", BIT 11, 1971).
/// About eight evaluations where halving takes forty, and never outside the interval.
pub(crate) fn crossing(low: f64, high: f64, tolerance: f64, function: &dyn Fn(f64) -> f64) -> f64 {
    let (mut kept, mut latest) = ((low, function(low)), (high, function(high)));
    // A function that isn't smooth may be slow; halving would be through by then.
    for _ in 0..100 {
        if latest.1 == 0.0 || (latest.0 - kept.0).abs() <= tolerance {
            break;
        }
        let at = latest.0 - latest.1 * (latest.0 - kept.0) / (latest.1 - kept.1);
        let next = (at, function(at));
        let moved = (at - latest.0).abs();
        if (next.1 > 0.0) == (latest.1 > 0.0) {
            kept.1 *= 0.5;
        } else {
            kept = latest;
        }
        latest = next;
        if moved <= tolerance {
            break;
        }
    }
    latest.0
}

/// Where a function that never falls crosses zero between two places, or the nearer of them where it doesn't.
pub(crate) fn crossing_within(low: f64, high: f64, function: &dyn Fn(f64) -> f64) -> f64 {
    if function(low) >= 0.0 {
        low
    } else if function(high) <= 0.0 {
        high
    } else {
        crossing(low, high, 1e-11, function)
    }
}

/// Where a function that falls for good comes to zero, looked for in intervals that double from `first` on;
/// `None` where it is still above by `most`.
pub(crate) fn first_fall(first: f64, most: f64, function: &dyn Fn(f64) -> f64) -> Option<f64> {
    let (mut low, mut high) = (0.0, first);
    while function(high) > 0.0 {
        if high >= most {
            return None;
        }
        (low, high) = (high, (2.0 * high).min(most));
    }
    Some(crossing(low, high, 1e-9 * high, function))
}

/// Where a function whose slope is known crosses zero between two places, upwards where it `rises`.
///
/// Newton's step where it stays inside, else half the interval, until one that was so short, and led there, is `near`.
pub(crate) fn newton_within(
    (mut low, mut high): (f64, f64),
    mut guess: f64,
    rises: bool,
    near: impl Fn(f64, f64) -> bool,
    value_and_slope: impl Fn(f64) -> (f64, f64),
) -> f64 {
    for _ in 0..100 {
        let (value, slope) = value_and_slope(guess);
        if (value > 0.0) == rises {
            high = guess;
        } else {
            low = guess;
        }
        let newton = guess - value / slope;
        let next = if newton > low && newton < high {
            newton
        } else {
            0.5 * (low + high)
        };
        let moved = (next - guess).abs();
        guess = next;
        if near(moved, guess) {
            break;
        }
    }
    guess
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_finds_what_can_be_worked_out() {
        type Case = (fn(f64) -> f64, f64, f64, f64);
        let cases: [Case; 4] = [
            (|x| x * x - 2.0, 0.0, 2.0, 2.0_f64.sqrt()),
            (|x| 0.5 - (-x / 30.0).exp(), 0.0, 500.0, 30.0 * 2.0_f64.ln()),
            (
                |x| 1e-3 - (-x / 30.0).exp(),
                0.0,
                500.0,
                30.0 * 1000.0_f64.ln(),
            ),
            (|x| 3.0 - x, 0.0, 10.0, 3.0),
        ];
        for (function, low, high, root) in cases {
            let found = crossing(low, high, 1e-9, &function);
            assert!((found - root).abs() < 1e-7, "{found} for {root}");
        }
    }

    #[test]
    fn a_slope_leads_there_and_never_outside() {
        // From its flat end the first step of the second would be a thousand times too long.
        type Case = (fn(f64) -> (f64, f64), bool, f64);
        let cases: [Case; 2] = [
            (|x| (x * x - 2.0, 2.0 * x), true, 2.0_f64.sqrt()),
            (
                |x| (2.0 - x.powi(9), -9.0 * x.powi(8)),
                false,
                2.0_f64.powf(1.0 / 9.0),
            ),
        ];
        for (function, rises, root) in cases {
            let near = |moved: f64, at: f64| moved <= 1e-14 * at;
            let found = newton_within((0.0, 4.0), 0.2, rises, near, function);
            assert!((found - root).abs() < 1e-12, "{found} for {root}");
        }
    }

    #[test]
    fn it_stops_at_the_nearer_end_of_what_has_no_crossing() {
        let within = |low, high| crossing_within(low, high, &|x| x - 3.0);
        assert!((within(0.0, 10.0) - 3.0).abs() < 1e-9);
        assert_eq!((within(4.0, 10.0), within(0.0, 2.0)), (4.0, 2.0));
    }

    #[test]
    fn a_fall_is_found_however_far_it_is_and_not_beyond_the_end() {
        let fall = |most| first_fall(1e-3, most, &|x| 1e-3 - (x / 30.0 - 20.0).exp());
        let found = fall(1e4).expect("it falls");
        assert!(
            (found - 30.0 * (20.0 - 1000.0_f64.ln())).abs() < 1e-4,
            "{found}"
        );
        assert_eq!(fall(100.0), None);
    }
}
