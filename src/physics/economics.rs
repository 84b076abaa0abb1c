//! Money and carbon: payback, present worth, levelised cost, purchased energy saved.
//!
//! The energies come from the yearly simulation. Money is a bare number in the builder's own currency.

use super::domain::{DomainError, finite, not_negative, positive, within};
use crate::units::si::{Dimension, Energy, Mass};

/// Longest period, years.
const MOST_YEARS: f64 = 100.0;
/// Rates that are taken as such and not as a percent figure written without its sign.
const RATE_RANGE: (f64, f64) = (-0.5, 1.0);

/// J in one kWh.
const KILOWATT_HOUR: f64 = 3.6e6;

/// Yearly growth of a sum, the yearly discount of money, and for how many years.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Annuity {
    /// n.
    pub years: u32,
    /// i, as a fraction.
    pub growth: f64,
    /// d, as a fraction.
    pub discount: f64,
}

impl Annuity {
    /// Present worth of one unit a year, paid at each year's end and growing from the second year on.
    ///
    /// PWF(n, i, d) = Σ (1 + i)^(k−1)/(1 + d)^k, k = 1..n, which is \[1 − ((1 + i)/(1 + d))ⁿ\]/(d − i) and n/(1 + d)
    /// for i = d (Duffie & Beckman ch. 11); summed term by term, so equal rates need no case of their own. Rates
    /// −0.5 to 1, 1 to 100 years.
    pub fn present_worth(&self) -> Result<f64, DomainError> {
        within("years", f64::from(self.years), 1.0, MOST_YEARS)?;
        let growth = 1.0 + within("growth rate", self.growth, RATE_RANGE.0, RATE_RANGE.1)?;
        let discount = 1.0 + within("discount rate", self.discount, RATE_RANGE.0, RATE_RANGE.1)?;
        let (mut term, mut sum) = (1.0 / discount, 0.0);
        for _ in 0..self.years {
            sum += term;
            term *= growth / discount;
        }
        finite("present worth", sum)
    }
}

/// A plant seen as an investment. An owner-built one has no labour cost: hours are a line of their own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Investment {
    /// Cost at the start.
    pub cost: f64,
    /// Saved in the first year.
    pub saving: f64,
    /// Maintenance of the first year.
    pub maintenance: f64,
    /// Yearly rise of the fuel's price.
    pub fuel_escalation: f64,
    /// Yearly discount.
    pub discount: f64,
    /// Yearly rise of the cost of maintenance.
    pub inflation: f64,
    /// Years looked at.
    pub years: u32,
    /// Purchased energy saved in a year.
    pub saved_energy: Energy,
}

/// What an investment amounts to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Worth {
    /// Years of cost/(saving − maintenance); none when the saving does not exceed the maintenance.
    pub simple_payback_years: Option<f64>,
    /// Present worth factor of the savings.
    pub saving_factor: f64,
    /// Present worth factor of the maintenance.
    pub maintenance_factor: f64,
    /// Savings less maintenance less cost, in today's money.
    pub net_present_value: f64,
    /// Cost of a saved kWh in today's money; none when nothing is saved.
    pub levelised_cost_per_kwh: Option<f64>,
}

impl Investment {
    /// Payback, net present value and levelised cost.
    ///
    /// NPV = saving PWF(n, fuel, d) − maintenance PWF(n, inflation, d) − cost; levelised cost = (cost + present
    /// worth of the maintenance)/(kWh PWF(n, 0, d)).
    pub fn worth(&self) -> Result<Worth, DomainError> {
        let cost = not_negative("cost", self.cost)?;
        let saving = not_negative("first year's saving", self.saving)?;
        let maintenance = not_negative("first year's maintenance", self.maintenance)?;
        let kilowatt_hours = not_negative("saved energy", self.saved_energy.si())? / KILOWATT_HOUR;
        let worth = |growth: f64| Annuity { years: self.years, growth, discount: self.discount }.present_worth();
        let (saving_factor, maintenance_factor) = (worth(self.fuel_escalation)?, worth(self.inflation)?);
        let kept = saving - maintenance;
        let upkeep = maintenance * maintenance_factor;
        let discounted_energy = kilowatt_hours * worth(0.0)?;
        Ok(Worth {
            simple_payback_years: (kept > 0.0).then(|| cost / kept),
            saving_factor,
            maintenance_factor,
            net_present_value: finite("net present value", saving * saving_factor - upkeep - cost)?,
            levelised_cost_per_kwh: (discounted_energy > 0.0).then(|| (cost + upkeep) / discounted_energy),
        })
    }
}

/// Energies of a year, against a plain water heater.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YearOfHeat {
    /// Heat needed at the taps.
    pub load: Energy,
    /// Standing loss of the heater that the plant replaces.
    pub reference_standby: Energy,
    /// Heat from the auxiliary heater.
    pub auxiliary: Energy,
    /// Heat that was lacking at the taps.
    pub shortfall: Energy,
    /// Efficiency of the replaced heater.
    pub heater_efficiency: f64,
    /// Electricity of the pump.
    pub pump: Energy,
}

/// Purchased energy saved: (load + standby − auxiliary − shortfall)/efficiency − pump.
///
/// Negative when the plant takes more than it gives. 0 < efficiency ≤ 5 (heat pumps included).
pub fn saved_energy(year: &YearOfHeat) -> Result<Energy, DomainError> {
    let efficiency = within("heater efficiency", positive("heater efficiency", year.heater_efficiency)?, 0.0, 5.0)?;
    for (what, energy) in [
        ("load", year.load),
        ("standby", year.reference_standby),
        ("auxiliary heat", year.auxiliary),
        ("shortfall", year.shortfall),
        ("pump energy", year.pump),
    ] {
        not_negative(what, energy.si())?;
    }
    Ok((year.load + year.reference_standby - year.auxiliary - year.shortfall) / efficiency - year.pump)
}

/// Carbon dioxide not emitted, with a factor in kg/kWh that the builder enters.
///
/// From memory: gas 0.20, grid electricity 0.2 to 0.5.
pub fn carbon_saved(saved: Energy, kilograms_per_kwh: f64) -> Result<Mass, DomainError> {
    let factor = not_negative("carbon factor", kilograms_per_kwh)?;
    Ok(Mass::from_si(finite("saved energy", saved.si())? / KILOWATT_HOUR * factor))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sum_is_the_textbook_formula() {
        let (n, i, d) = (20_u32, 0.03_f64, 0.05_f64);
        let formula = (1.0 - ((1.0 + i) / (1.0 + d)).powf(f64::from(n))) / (d - i);
        let annuity = Annuity { years: n, growth: i, discount: d };
        assert!((annuity.present_worth().unwrap() / formula - 1.0).abs() < 1e-13);
    }

    #[test]
    fn a_percent_written_as_a_whole_number_is_refused() {
        assert!(Annuity { years: 20, growth: 3.0, discount: 0.05 }.present_worth().is_err());
        assert!(Annuity { years: 0, growth: 0.0, discount: 0.05 }.present_worth().is_err());
    }

    #[test]
    fn what_saves_nothing_never_pays_back() {
        let nothing = Investment {
            cost: 1000.0,
            saving: 20.0,
            maintenance: 30.0,
            fuel_escalation: 0.0,
            discount: 0.04,
            inflation: 0.0,
            years: 10,
            saved_energy: Energy::from_si(0.0),
        };
        let worth = nothing.worth().unwrap();
        assert_eq!((worth.simple_payback_years, worth.levelised_cost_per_kwh), (None, None));
        assert!(worth.net_present_value < -1000.0);
    }

    #[test]
    fn pump_and_auxiliary_count_against_the_saving() {
        let joules = |kilowatt_hours: f64| Energy::from_si(kilowatt_hours * KILOWATT_HOUR);
        let year = YearOfHeat {
            load: joules(3000.0),
            reference_standby: joules(400.0),
            auxiliary: joules(900.0),
            shortfall: joules(100.0),
            heater_efficiency: 0.8,
            pump: joules(100.0),
        };
        assert!((saved_energy(&year).unwrap().si() / KILOWATT_HOUR - 2900.0).abs() < 1e-9);
        assert!((carbon_saved(joules(2000.0), 0.2).unwrap().si() - 400.0).abs() < 1e-9);
    }
}
