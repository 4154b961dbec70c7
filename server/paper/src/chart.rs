//! Clamp load against torque as a picture: SVG for one ink, so that it survives a photocopier.
//!
//! Nothing is told by colour: lines differ in their dashes and each carries its name.

mod ink;
mod scale;
mod words;

use clampbook_engine::{
    Answer, Question,
    quantity::TorqueUnit,
    show::{self, LoadUnit},
    units::{NewtonMetres, Newtons},
};
use ink::{escape, haloed, path, text};
use scale::Scale;
use std::fmt::Write;
use words::{lines_of, percent};

const WIDTH: f64 = 760.0;
const HEIGHT: f64 = 555.0;
/// Edges of the plot: left, right, top, bottom.
const PLOT: (f64, f64, f64, f64) = (84.0, 570.0, 99.0, 453.0);
/// Letters that a line over the plot holds, in a wide font.
const LETTERS: usize = 84;
/// Minimum distance between the names of two lines.
const LINE_OF_TEXT: f64 = 17.0;

/// The picture of one answer, and the same in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// SVG, complete.
    pub svg: String,
    /// For those who do not see it.
    pub description: String,
}

/// Draws clamp load against torque for one answer: the line, its band, proof and yield, and where the joint sits.
#[must_use]
pub fn render(question: &Question<'_>, answer: &Answer<'_>, unit: TorqueUnit) -> Chart {
    let picture = Picture::of(question, answer, unit);
    Chart {
        description: picture.description(),
        svg: picture.svg(),
    }
}

struct Picture<'a> {
    title: String,
    answer: &'a Answer<'a>,
    unit: TorqueUnit,
    load: LoadUnit,
    x: Scale,
    y: Scale,
}

impl<'a> Picture<'a> {
    fn of(question: &Question<'_>, answer: &'a Answer<'a>, unit: TorqueUnit) -> Self {
        let load = LoadUnit::beside(unit);
        let lubrication = question
            .lubrication()
            .map_or("nut factor as given", |c| c.name());
        let loads = [
            Some(answer.working_load),
            answer.yield_load,
            Some(answer.scatter.maximum),
        ];
        let highest = loads
            .into_iter()
            .flatten()
            .map(|f| load.number(f))
            .fold(0.0, |top, f| if f > top { f } else { top });
        let y = Scale::to(1.08 * highest, (PLOT.3, PLOT.2));
        // As wide as the nominal line needs to rise to the highest load.
        let per_load = show::number_in(answer.torque, unit) / load.number(answer.clamp_load);
        Self {
            title: format!(
                "{}, {}, {lubrication}, K {}",
                question.thread(),
                question.grade(),
                show::nut_factor(answer.nut_factor)
            ),
            answer,
            unit,
            load,
            x: Scale::to(1.08 * highest * per_load, (PLOT.0, PLOT.1)),
            y,
        }
    }

    fn torque(&self, torque: NewtonMetres) -> f64 {
        self.x.at(show::number_in(torque, self.unit))
    }

    fn load_at(&self, load: Newtons) -> f64 {
        self.y.at(self.load.number(load))
    }

    /// Where the line through the origin and a load at the set torque leaves the plot.
    fn end_of(&self, load: Newtons) -> (f64, f64) {
        let slope = self.load.number(load) / show::number_in(self.answer.torque, self.unit);
        if slope * self.x.top > self.y.top {
            (self.x.at(self.y.top / slope), self.y.at(self.y.top))
        } else {
            (self.x.at(self.x.top), self.y.at(slope * self.x.top))
        }
    }

    fn svg(&self) -> String {
        let mut out = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" width=\"{WIDTH}\" \
             height=\"{HEIGHT}\" role=\"img\" font-family=\"sans-serif\" font-size=\"13\" fill=\"black\" \
             stroke=\"none\">\n<title>{}</title>\n<desc>{}</desc>\n\
             <defs><pattern id=\"band\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\" \
             patternTransform=\"rotate(45)\"><path d=\"M0 0V7\" stroke=\"black\" stroke-width=\"0.7\"/></pattern></defs>\n\
             <rect width=\"{WIDTH}\" height=\"{HEIGHT}\" fill=\"white\"/>\n",
            escape(&self.title),
            escape(&self.description()),
        );
        text(&mut out, (PLOT.0, 24.0), "start", &self.title);
        let said = format!("Computed, not the maker's. {}", self.worst());
        let mut y = 44.0;
        for line in lines_of(&said, LETTERS) {
            text(&mut out, (PLOT.0, y), "start", &line);
            y += LINE_OF_TEXT;
        }
        self.axes(&mut out);
        self.band(&mut out);
        self.limits(&mut out);
        self.joint(&mut out);
        let key = format!(
            "Hatched: the clamp load that a set torque may really make, {} either way.",
            percent(self.answer.scatter.relative_scatter)
        );
        text(&mut out, (PLOT.0, HEIGHT - 36.0), "start", &key);
        let key =
            "Solid line: what is aimed at. Dot and thick bar: this joint, from minimum to maximum.";
        text(&mut out, (PLOT.0, HEIGHT - 16.0), "start", key);
        out.push_str("</svg>\n");
        out
    }

    fn axes(&self, out: &mut String) {
        let (left, right, top, bottom) = PLOT;
        let frame = format!("M{left} {top}V{bottom}H{right}");
        path(out, &frame, 1.2, "");
        for (value, label) in self.x.ticks() {
            let at = self.x.at(value);
            path(out, &format!("M{at:.1} {bottom}v6"), 1.0, "");
            text(out, (at, bottom + 21.0), "middle", &label);
        }
        for (value, label) in self.y.ticks() {
            let at = self.y.at(value);
            path(out, &format!("M{left} {at:.1}h-6"), 1.0, "");
            text(out, (left - 10.0, at + 4.5), "end", &label);
        }
        let middle = f64::midpoint(left, right);
        let name = format!("Torque, {}", self.unit.symbol());
        text(out, (middle, bottom + 42.0), "middle", &name);
        let (x, y) = (22.0, f64::midpoint(top, bottom));
        // Writing into a String cannot fail, here and below.
        let _ = writeln!(
            out,
            "<text x=\"{x}\" y=\"{y}\" text-anchor=\"middle\" transform=\"rotate(-90 {x} {y})\">Clamp load, {}</text>",
            self.load.symbol()
        );
    }

    fn band(&self, out: &mut String) {
        let scatter = &self.answer.scatter;
        let (low, high) = (self.end_of(scatter.minimum), self.end_of(scatter.maximum));
        let (x0, y0) = (self.x.at(0.0), self.y.at(0.0));
        // The corner belongs to the band where its upper edge leaves through the top.
        let corner = (self.x.at(self.x.top), self.y.at(self.y.top));
        let edge = format!(
            "M{x0:.1} {y0:.1}L{:.1} {:.1}L{:.1} {:.1}L{:.1} {:.1}Z",
            high.0, high.1, corner.0, corner.1, low.0, low.1
        );
        let _ = writeln!(out, "<path d=\"{edge}\" fill=\"url(#band)\"/>");
        for end in [low, high] {
            let line = format!("M{x0:.1} {y0:.1}L{:.1} {:.1}", end.0, end.1);
            path(out, &line, 0.8, "");
        }
        let end = self.end_of(self.answer.clamp_load);
        let line = format!("M{x0:.1} {y0:.1}L{:.1} {:.1}", end.0, end.1);
        path(out, &line, 2.0, "");
    }

    /// Proof and yield, each with its name and number beside the plot.
    fn limits(&self, out: &mut String) {
        let working = match self.answer.proof_load {
            Some(proof) => ("proof", proof, "12 5"),
            None => ("0.85 of yield", self.answer.working_load, "12 5"),
        };
        let yielding = self
            .answer
            .yield_load
            .map(|load| ("yield", load, "12 4 2 4"));
        let mut named = f64::INFINITY;
        for (name, load, dashes) in [Some(working), yielding].into_iter().flatten() {
            let at = self.load_at(load);
            path(out, &format!("M{} {at:.1}H{}", PLOT.0, PLOT.1), 1.4, dashes);
            let beside = above(at + 4.5, named);
            let label = format!("{name} {}", self.shown_load(load));
            text(out, (PLOT.1 + 10.0, beside), "start", &label);
            named = beside;
        }
    }

    fn joint(&self, out: &mut String) {
        let scatter = &self.answer.scatter;
        let x = self.torque(self.answer.torque);
        let (minimum, maximum) = (self.load_at(scatter.minimum), self.load_at(scatter.maximum));
        let y = self.load_at(self.answer.clamp_load);
        path(
            out,
            &format!("M{x:.1} {}V{y:.1}H{}", PLOT.3, PLOT.0),
            1.0,
            "2 4",
        );
        let bar = format!(
            "M{x:.1} {minimum:.1}V{maximum:.1}M{:.1} {minimum:.1}h14M{:.1} {maximum:.1}h14",
            x - 7.0,
            x - 7.0
        );
        path(out, &bar, 3.2, "");
        let _ = writeln!(out, "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"5.5\"/>");
        let aimed = format!(
            "{} at {}",
            self.shown_load(self.answer.clamp_load),
            show::torque(self.answer.torque, self.unit)
        );
        let names = [
            (
                minimum,
                format!("minimum {}", self.shown_load(scatter.minimum)),
            ),
            (y, aimed),
            (
                maximum,
                format!("maximum {}", self.shown_load(scatter.maximum)),
            ),
        ];
        let mut named = PLOT.3 - 4.0 + LINE_OF_TEXT;
        for (at, label) in names {
            named = above(at + 4.5, named);
            haloed(out, (x + 14.0, named), &label);
        }
    }
}

/// Where a name stands: where it is wanted, or as far above the one before as a line of text needs.
fn above(wanted: f64, before: f64) -> f64 {
    if wanted > before - LINE_OF_TEXT {
        before - LINE_OF_TEXT
    } else {
        wanted
    }
}

#[cfg(test)]
mod tests;
