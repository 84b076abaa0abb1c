//! The harp in millimetres: tubes, holes from one datum, cut lengths. Heat does not live here.

use super::entries::{self as e, HeaderPair, Joint};
use crate::handbook::tube::{self, TubeSize};
use crate::model::{Fig, Inputs, Why};
use crate::physics::harp_shop::{RiserInHeader, TeeFitting};
use crate::units::si::{Dimension, Length, Volume};
use crate::units::tape;
use std::f64::consts::FRAC_PI_4;

/// The harp as it is cut and joined.
#[derive(Clone, Debug)]
pub struct Harp {
    /// Number of risers.
    pub riser_count: usize,
    /// Riser axis to riser axis.
    pub riser_pitch: Length,
    /// Outside diameter of a riser.
    pub riser_outer_diameter: Length,
    /// Bore of a riser: the handbook's, or by the measured wall.
    pub riser_bore: Length,
    /// The headers' tube.
    pub header: &'static TubeSize,
    /// Sheet across the risers.
    pub sheet_width: Length,
    /// Sheet from an outermost riser's axis to the edge.
    pub edge_width: Length,
    /// One header, stubs included.
    pub header_length: Length,
    /// Centre to centre of the headers.
    pub header_spacing: Length,
    /// Riser between the headers' outsides.
    pub sheet_length: Length,
    /// Sheet along the risers: between the headers, or between the mouths of the tees, as far as those are known.
    pub plate_length: Length,
    /// Header beyond the sheet on the left, lower header.
    pub stub_left: Length,
    /// Header beyond the sheet on the right, lower header.
    pub stub_right: Length,
    /// Hole centres from the left end of the lower header, each by itself.
    pub holes: Vec<Length>,
    /// The same from the left end of the upper header.
    pub upper_holes: Vec<Length>,
    /// The length to which risers are cut.
    pub riser_cut: Fig<Length>,
}

/// Lays out the harp.
///
/// The pitch is the entered one, the risers centred on the sheet; with a sheet width alone it is width / n, half a pitch
/// at each edge. A pitch that was measured moves risers and holes, not the sheet: that is cut as it was drawn.
pub fn harp(inputs: &Inputs) -> Fig<Harp> {
    let riser = named_tube(&inputs.get(&e::RISER_TUBE)?, e::RISER_TUBE.spec.id)?;
    let header = named_tube(&inputs.get(&e::HEADER_TUBE)?, e::HEADER_TUBE.spec.id)?;
    let riser_count = inputs.get(&e::RISER_COUNT)?;
    let (riser_pitch, sheet_width) = layout(inputs, riser_count)?;
    let spans = riser_pitch * (riser_count as f64 - 1.0);
    let edge_width = (sheet_width - spans) / 2.0;
    let stub_left = inputs.get(&e::STUB_LEFT)?;
    let stub_right = inputs.get(&e::STUB_RIGHT)?;
    let upper_stub = match inputs.get(&e::HEADER_PAIR)? {
        HeaderPair::Alike => stub_left,
        HeaderPair::Mirrored => stub_right,
    };
    let header_spacing = inputs.get(&e::HEADER_SPACING)?;
    let riser_bore = match inputs.given(&e::RISER_WALL)? {
        Some(wall) => riser.od - wall * 2.0,
        None => riser.bore(),
    };
    refuse_impossible(riser, header, riser_pitch, edge_width, header_spacing)?;
    let holes = |stub: Length| (0..riser_count).map(|hole| stub + edge_width + riser_pitch * hole as f64).collect();
    Ok(Harp {
        riser_count,
        riser_pitch,
        riser_outer_diameter: riser.od,
        riser_bore,
        header,
        sheet_width,
        edge_width,
        header_length: stub_left + sheet_width + stub_right,
        header_spacing,
        sheet_length: header_spacing - header.od,
        plate_length: plate_length(inputs, header, header_spacing),
        stub_left,
        stub_right,
        holes: holes(stub_left),
        upper_holes: holes(upper_stub),
        riser_cut: riser_cut(inputs, riser, header, header_spacing),
    })
}

/// Riser pitch and sheet width.
fn layout(inputs: &Inputs, riser_count: usize) -> Fig<(Length, Length)> {
    let width = inputs.given(&e::SHEET_WIDTH)?;
    match (inputs.given(&e::RISER_PITCH)?, width) {
        (Some(pitch), Some(width)) => Ok((pitch, width)),
        (Some(pitch), None) => {
            let drawn = inputs.designed(&e::RISER_PITCH).unwrap_or(pitch);
            Ok((pitch, drawn * riser_count as f64))
        }
        (None, Some(width)) => Ok((width / riser_count as f64, width)),
        (None, None) => Err(Why::missing(e::RISER_PITCH.spec.id)),
    }
}

fn refuse_impossible(riser: &TubeSize, header: &TubeSize, pitch: Length, edge: Length, spacing: Length) -> Fig<()> {
    let out = |sentence: String| Err(Why::OutOfRange(sentence));
    if pitch <= riser.od {
        return out(format!("the riser pitch must be wider than the riser tube, {:.1} mm", riser.od.si() * 1e3));
    }
    if header.bore() <= riser.bore() {
        return out("the header's bore must be wider than the riser's".to_owned());
    }
    if edge.si() < 0.0 {
        return out("the outermost risers lie beyond the sheet: fewer risers, less pitch or a wider sheet".to_owned());
    }
    if spacing <= header.od {
        return out("the header spacing must be more than one header diameter".to_owned());
    }
    Ok(())
}

fn riser_cut(inputs: &Inputs, riser: &TubeSize, header: &TubeSize, spacing: Length) -> Fig<Length> {
    match inputs.get(&e::JOINT)? {
        Joint::Tee => {
            let tee = TeeFitting {
                centre_to_shoulder: inputs.get(&e::TEE_SHOULDER)?,
                tube_outer_diameter: riser.od,
                cup_depth: Length::from_si(0.0),
            };
            tee.cut_length(spacing).map_err(Why::out_of_range)
        }
        Joint::Collar | Joint::Drilled => {
            let joint = RiserInHeader {
                header_outer_diameter: header.od,
                header_bore: header.bore(),
                riser_outer_diameter: riser.od,
            };
            let depth = match inputs.given(&e::INSERTION)? {
                Some(depth) => depth,
                None => joint.least_insertion().map_err(Why::out_of_range)?,
            };
            let insertion = joint.inserted(depth).map_err(Why::out_of_range)?;
            joint.cut_length(spacing, &insertion).map_err(Why::out_of_range)
        }
    }
}

/// What of a riser carries sheet. A tee's cup reaches its depth beyond the shoulder, and no sheet lies on a fitting; where
/// joint, shoulder or cup are not known it is the riser between the headers, and a check says what is missing.
fn plate_length(inputs: &Inputs, header: &TubeSize, spacing: Length) -> Length {
    let between = spacing - header.od;
    let Ok(mouth) = tee_mouth(inputs) else { return between };
    let free = spacing - mouth * 2.0;
    if free.si() > 0.0 { free.min(between) } else { between }
}

/// From the header's axis to the mouth of a tee's riser cup: to the shoulder, and the cup's depth beyond it.
pub fn tee_mouth(inputs: &Inputs) -> Fig<Length> {
    if inputs.get(&e::JOINT)? != Joint::Tee {
        return Err(Why::out_of_range("no tee holds the risers"));
    }
    Ok(inputs.get(&e::TEE_SHOULDER)? + super::joints::riser_cup(inputs)?)
}

/// A tube by its handbook name, asked for by the entry `id`.
pub fn named_tube(name: &str, id: &str) -> Fig<&'static TubeSize> {
    tube::tube(name).ok_or_else(|| Why::Invalid(vec![id.to_owned()]))
}

impl Harp {
    /// How far the last hole lies off if the pitch, rounded to the tape, is stepped along the header.
    ///
    /// Steps add their rounding up: (n − 1)(rounded pitch − pitch). Running positions never do.
    pub fn stepping_error(&self, division: tape::Division) -> Fig<Length> {
        let row =
            tape::Row { first: self.stub_left + self.edge_width, pitch: self.riser_pitch, count: self.riser_count };
        tape::stepped_drift(row, division).map_err(Why::out_of_range)
    }

    /// Diagonal of the rectangle of the header axes between the outermost risers: √(a² + b²).
    pub fn diagonal(&self) -> Length {
        let across = self.riser_pitch * (self.riser_count as f64 - 1.0);
        across.hypot(self.header_spacing)
    }

    /// What the harp holds: the bores of risers and headers.
    pub fn content(&self) -> Volume {
        let risers = self.riser_count as f64 * self.sheet_length.si() * self.riser_bore.si().powi(2);
        Volume::from_si(FRAC_PI_4 * risers) + self.header.content(self.header_length * 2.0)
    }
}
