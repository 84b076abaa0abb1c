//! Root of a continuous function inside a bracket.
//!
//! Only the numerical method lives here; what the function means lives where it is called.

/// Most function calls before the search gives up; a bisection alone needs about 50.
const MOST_CALLS: usize = 120;

/// Two arguments between which a function changes sign.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bracket {
    /// One end.
    pub low: f64,
    /// The other end.
    pub high: f64,
}

/// Finds x in the bracket with f(x) = 0, to `tolerance` in x.
///
/// Inverse quadratic interpolation where it is trustworthy, bisection elsewhere: Chandrupatla 1997, Advances in
/// Engineering Software 28, 145 (from memory). `None` if f has one sign at both ends, is not a number there, or 120
/// calls do not suffice.
pub fn find(bracket: Bracket, tolerance: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
    let (mut b, mut a) = (bracket.low, bracket.high);
    let (mut fb, mut fa) = (f(b), f(a));
    if fb == 0.0 {
        return Some(b);
    }
    if fa == 0.0 {
        return Some(a);
    }
    if fa.is_nan() || fb.is_nan() || (fa > 0.0) == (fb > 0.0) {
        return None;
    }
    let mut t = 0.5;
    for _ in 0..MOST_CALLS {
        let x = a + t * (b - a);
        let fx = f(x);
        if fx.is_nan() {
            return None;
        }
        let (c, fc);
        if (fx > 0.0) == (fa > 0.0) {
            (c, fc) = (a, fa);
        } else {
            (c, fc) = (b, fb);
            (b, fb) = (a, fa);
        }
        (a, fa) = (x, fx);
        let (best, value) = if fa.abs() < fb.abs() { (a, fa) } else { (b, fb) };
        let width = (b - a).abs();
        let least = (tolerance + 2.0 * f64::EPSILON * best.abs()) / width;
        if value == 0.0 || least > 0.5 {
            return Some(best);
        }
        t = interpolate([a, b, c], [fa, fb, fc]).clamp(least, 1.0 - least);
    }
    None
}

/// The fraction of the way from a to b at which the next call is made.
fn interpolate([a, b, c]: [f64; 3], [fa, fb, fc]: [f64; 3]) -> f64 {
    let xi = (a - b) / (c - b);
    let phi = (fa - fb) / (fc - fb);
    if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
        fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
    } else {
        0.5
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cubic_and_a_kink_give_up_their_roots() {
        let cubic = find(Bracket { low: 0.0, high: 4.0 }, 1e-12, |x| x * x * x - 2.0).unwrap();
        assert!((cubic - 2.0_f64.cbrt()).abs() < 1e-11);
        let kink = find(Bracket { low: -3.0, high: 9.0 }, 1e-12, |x| if x < 1.0 { x - 1.0 } else { 50.0 * (x - 1.0) });
        assert!((kink.unwrap() - 1.0).abs() < 1e-11);
    }

    #[test]
    fn no_change_of_sign_gives_no_root() {
        assert_eq!(find(Bracket { low: 0.0, high: 1.0 }, 1e-9, |x| x + 1.0), None);
        assert_eq!(find(Bracket { low: 0.0, high: 1.0 }, 1e-9, |_| f64::NAN), None);
    }
}
