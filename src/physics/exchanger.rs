//! Heat exchangers: effectiveness and transferred heat, coils in a tank, what one costs the collector.
//!
//! Tanks live in the yearly simulation, pipe insulation in `pipe_loss`.

use super::domain::{DomainError, finite, not_negative, positive, within};
use crate::units::si::{Area, Dimension, HeatTransfer, Power, Temperature, ThermalConductance};

/// Counterflow exchanger: conductance and the heat capacity rates of its two sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counterflow {
    /// Overall conductance UA.
    pub conductance: ThermalConductance,
    /// ṁ c_p of the hot side, W/K.
    pub hot_rate: f64,
    /// ṁ c_p of the cold side, W/K.
    pub cold_rate: f64,
}

/// Temperatures at which the two sides come in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inlets {
    /// Hot side.
    pub hot: Temperature,
    /// Cold side.
    pub cold: Temperature,
}

/// What an exchanger does between two inlets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Transfer {
    /// Number of transfer units UA/C_min.
    pub transfer_units: f64,
    /// Effectiveness ε.
    pub effectiveness: f64,
    /// Heat from hot to cold; negative when the "hot" side comes in colder.
    pub heat: Power,
    /// Hot side leaving.
    pub hot_out: Temperature,
    /// Cold side leaving.
    pub cold_out: Temperature,
}

impl Counterflow {
    /// Heat transferred: Q = ε C_min (T_hot − T_cold).
    ///
    /// ε = (1 − e)/(1 − C_r e) with e = exp\[−NTU (1 − C_r)\], and NTU/(1 + NTU) for C_r = 1 (Kays & London). Both
    /// rates > 0, UA ≥ 0.
    pub fn transfer(&self, inlets: Inlets) -> Result<Transfer, DomainError> {
        let hot_rate = positive("hot capacity rate", self.hot_rate)?;
        let cold_rate = positive("cold capacity rate", self.cold_rate)?;
        let conductance = not_negative("exchanger conductance", self.conductance.si())?;
        positive("hot inlet temperature", inlets.hot.si())?;
        positive("cold inlet temperature", inlets.cold.si())?;
        let least = hot_rate.min(cold_rate);
        let units = finite("transfer units", conductance / least)?;
        let effectiveness = counterflow_effectiveness(units, least / hot_rate.max(cold_rate));
        let heat = effectiveness * least * (inlets.hot.si() - inlets.cold.si());
        Ok(Transfer {
            transfer_units: units,
            effectiveness,
            heat: Power::from_si(heat),
            hot_out: Temperature::from_si(inlets.hot.si() - heat / hot_rate),
            cold_out: Temperature::from_si(inlets.cold.si() + heat / cold_rate),
        })
    }
}

/// ε of a counterflow exchanger for NTU ≥ 0 and C_r from 0 to 1.
pub fn counterflow_effectiveness(transfer_units: f64, rate_ratio: f64) -> f64 {
    // exp(x) − 1 keeps its digits as the rates become equal, so the balanced case needs no seam of its own.
    let spread = 1.0 - rate_ratio;
    let gap = -f64::exp_m1(-transfer_units * spread);
    if gap > 0.0 {
        // 1 − C_r e = (1 − C_r) + C_r (1 − e)
        gap / (spread + rate_ratio * gap)
    } else {
        transfer_units / (1.0 + transfer_units)
    }
}

/// ε of a coil in a well-mixed tank, 1 − exp(−NTU), for NTU ≥ 0: the tank's rate counts as infinite.
pub fn coil_effectiveness(transfer_units: f64) -> f64 {
    -f64::exp_m1(-transfer_units)
}

/// Collector with an exchanger between it and the store.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CollectorExchanger {
    /// Collector area A.
    pub area: Area,
    /// F_R U_L of the collector.
    pub loss: HeatTransfer,
    /// ṁ c_p on the collector side C_c, W/K.
    pub collector_rate: f64,
    /// ṁ c_p on the storage side, W/K; infinite for a coil.
    pub storage_rate: f64,
    /// Effectiveness ε of the exchanger.
    pub effectiveness: f64,
}

impl CollectorExchanger {
    /// Collector-exchanger factor F_R′/F_R = 1/{1 + (A F_R U_L/C_c)\[C_c/(ε C_min) − 1\]}.
    ///
    /// de Winter, Solar Energy 17, 335, 1975. Both figures of the collector are multiplied by it and the collector is
    /// then fed with the storage temperature. 0 < ε ≤ 1.
    pub fn factor(&self) -> Result<f64, DomainError> {
        let collector_rate = positive("collector capacity rate", self.collector_rate)?;
        if self.storage_rate.is_nan() || self.storage_rate <= 0.0 {
            return Err(DomainError::NotPositive { what: "storage capacity rate", value: self.storage_rate });
        }
        let effectiveness = within("effectiveness", positive("effectiveness", self.effectiveness)?, 0.0, 1.0)?;
        let loss = positive("collector area", self.area.si())? * not_negative("collector loss", self.loss.si())?;
        let least = collector_rate.min(self.storage_rate);
        Ok(1.0 / (1.0 + loss / collector_rate * (collector_rate / (effectiveness * least) - 1.0)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    #[test]
    fn what_leaves_the_hot_side_enters_the_cold_side() {
        for (hot_rate, cold_rate) in [(225.0, 280.0), (250.0, 250.0), (250.0, 250.0000001), (400.0, 90.0)] {
            let exchanger = Counterflow { conductance: ThermalConductance::from_si(300.0), hot_rate, cold_rate };
            let inlets = Inlets { hot: celsius(60.0), cold: celsius(35.0) };
            let transfer = exchanger.transfer(inlets).unwrap();
            let given = hot_rate * (inlets.hot.si() - transfer.hot_out.si());
            let taken = cold_rate * (transfer.cold_out.si() - inlets.cold.si());
            assert!((given - taken).abs() < 1e-9 * given);
            assert!((given - transfer.heat.si()).abs() < 1e-9 * given);
        }
    }

    #[test]
    fn effectiveness_has_no_seam_where_the_rates_become_equal() {
        let even = counterflow_effectiveness(1.2, 1.0);
        let nearly = counterflow_effectiveness(1.2, 1.0 - 1e-10);
        assert!((even - nearly).abs() < 1e-9);
        assert!((counterflow_effectiveness(1.2, 0.0) - coil_effectiveness(1.2)).abs() < 1e-15);
    }

    #[test]
    fn an_exchanger_without_conductance_moves_no_heat() {
        let none = Counterflow { conductance: ThermalConductance::from_si(0.0), hot_rate: 200.0, cold_rate: 200.0 };
        let transfer = none.transfer(Inlets { hot: celsius(60.0), cold: celsius(35.0) }).unwrap();
        assert!(transfer.heat.si().abs() < 1e-12);
    }

    #[test]
    fn a_perfect_exchanger_with_a_great_storage_flow_costs_nothing() {
        let given = CollectorExchanger {
            area: Area::from_si(4.0),
            loss: HeatTransfer::from_si(5.0),
            collector_rate: 200.0,
            storage_rate: f64::INFINITY,
            effectiveness: 1.0,
        };
        assert!((given.factor().unwrap() - 1.0).abs() < 1e-15);
        assert!(CollectorExchanger { effectiveness: 0.0, ..given }.factor().is_err());
    }
}
