//! The page “how this was worked out”: uncertainty budgets in words.

use crate::session::Confidence;
use crate::splice::{Budget, Cause, Contribution, Distribution, Scatter, ScatterSource, Source};

use super::{Figures, Language};

/// Below this share of an uncertainty a line is not worth its figure.
const NEXT_TO_NOTHING: f64 = 0.01;

impl Figures {
    /// A budget, a line for every contribution, then what they come to and
    /// what was left out on purpose.
    pub fn budget_lines(&self, budget: &Budget, confidence: f64) -> Vec<String> {
        let words = self.language;
        let mut lines: Vec<String> = budget
            .contributions
            .iter()
            .map(|line| self.contribution_line(line, budget.u_nm))
            .collect();
        let u = self.uncertainty(budget.u_nm);
        lines.push(if budget.dof.is_finite() {
            words.budget_combined(u, words.freedom_text(budget.dof))
        } else {
            words.budget_combined_known(u)
        });
        if let Some(expanded) = budget.expanded_nm(confidence) {
            let percent = Confidence::from_share(confidence).map_or_else(
                || self.share(confidence),
                |confidence| self.confidence(confidence),
            );
            lines.push(words.budget_expanded(self.uncertainty(expanded), percent));
        }
        lines.push(words.budget_scale_left_out().to_owned());
        lines
    }

    fn contribution_line(&self, line: &Contribution, of_nm: f64) -> String {
        let words = self.language;
        let how = match line.cause {
            Cause::Repeats(count) => {
                let sd = line.scatter.map_or(f64::NAN, |scatter| scatter.sd_nm);
                words.budget_repeats(self.uncertainty(sd), count)
            }
            Cause::Step if line.u_nm < NEXT_TO_NOTHING * of_nm => {
                return words.budget_step_averages(self.plain(self.step));
            }
            Cause::Step => words.budget_step(self.plain(self.step)),
            Cause::Lacing => words.budget_lacing().to_owned(),
        };
        let shape = match line.distribution {
            Distribution::Normal => words.budget_normal(),
            Distribution::Rounding => words.budget_rounding(),
        };
        let source = match line.source {
            Source::TypeA => "JCGM 100:2008, 4.2",
            Source::TypeB => "JCGM 100:2008, 4.3",
            Source::Quantization => "Widrow, Kollár, Quantization Noise",
        };
        let u = self.uncertainty(line.u_nm);
        match line.scatter {
            Some(scatter) => {
                let known = words.scatter_source(&scatter);
                words.budget_line_from(how, u, shape, known, source)
            }
            None => words.budget_line(how, u, shape, source),
        }
    }

    /// A standard uncertainty with its unit and two digits that count, as
    /// JCGM 100:2008, 7.2.6 advises.
    pub fn uncertainty(&self, nm: f64) -> String {
        let mut place = self.unit.nm() as f64;
        let mut decimals = 0;
        while decimals < 7 && place * 10.0 > nm.abs() {
            place /= 10.0;
            decimals += 1;
        }
        self.with_unit(&self.nm(nm, decimals))
    }
}

impl Language {
    /// What a scatter rests on, in plain words.
    pub fn scatter_known(self, scatter: &Scatter) -> String {
        match scatter.source {
            ScatterSource::Typed => self.scatter_typed().to_owned(),
            ScatterSource::GaugeCheck => self.scatter_checked().to_owned(),
            ScatterSource::Repeats(stations) => self.scatter_repeats(stations),
            ScatterSource::Lacings(lacings) => self.scatter_lacings(lacings),
            ScatterSource::Assumed => self.scatter_assumed().to_owned(),
        }
    }

    /// What a scatter rests on, and how much that is.
    pub fn scatter_source(self, scatter: &Scatter) -> String {
        let known = self.scatter_known(scatter);
        match scatter.source {
            ScatterSource::Typed => known,
            ScatterSource::Assumed => {
                self.scatter_assumed_weight(known, self.freedom_text(scatter.dof))
            }
            _ => self.scatter_weight(known, self.freedom_text(scatter.dof)),
        }
    }

    /// Degrees of freedom, rounded down as JCGM 100:2008, G.4.1 advises.
    fn freedom_text(self, dof: f64) -> String {
        if dof < 1e6 {
            format!("{}", dof.floor())
        } else {
            "∞".to_owned()
        }
    }
}

texts! {
    budget_line(how, u, shape, source) {
        en: "{how}: {u} ({shape}; {source})",
        es: "{how}: {u} ({shape}; {source})"
    }
    budget_line_from(how, u, shape, known, source) {
        en: "{how}: {u} ({shape}; {known}; {source})",
        es: "{how}: {u} ({shape}; {known}; {source})"
    }
    budget_repeats(sd, count) {
        en: "Readings vary by {sd}, rounding included; the part that repeats average out, over √{count}",
        es: "Las lecturas varían {sd}, con su redondeo; la parte que se promedia al repetir, sobre √{count}"
    }
    budget_step(step) {
        en: "Rounding to the resolution of {step}: the part that repeats do not average out",
        es: "Redondeo a la resolución de {step}: la parte que no se promedia al repetir"
    }
    budget_step_averages(step) {
        en: "Rounding to the resolution of {step}: averages out with the rest, since readings vary so much",
        es: "Redondeo a la resolución de {step}: se promedia con lo demás, porque las lecturas varían mucho"
    }
    budget_lacing { en: "One lacing to the next", es: "De un engrape a otro" }
    budget_normal { en: "normal", es: "normal" }
    budget_rounding { en: "within half the resolution", es: "dentro de media resolución" }
    budget_combined(u, dof) {
        en: "Together, as the root of the sum of squares: {u} with {dof} degrees of freedom",
        es: "En total, como raíz de la suma de cuadrados: {u} con {dof} grados de libertad"
    }
    budget_combined_known(u) {
        en: "Together, as the root of the sum of squares: {u}",
        es: "En total, como raíz de la suma de cuadrados: {u}"
    }
    budget_expanded(u, percent) {
        en: "With {percent} confidence: ± {u}",
        es: "Con {percent} de confianza: ± {u}"
    }
    budget_scale_left_out {
        en: "Left out: the error of the gauge's scale. All readings share it, so it cancels in every difference.",
        es: "Se omite: el error de escala del instrumento. Todas las lecturas lo comparten y se cancela en cada diferencia."
    }
    scatter_typed { en: "typed in", es: "capturada" }
    scatter_checked { en: "from the gauge check", es: "de la revisión del instrumento" }
    scatter_repeats(stations) {
        en: "from repeats at {stations} measuring points",
        es: "de repeticiones en {stations} puntos de medición"
    }
    scatter_lacings(lacings) {
        en: "from {lacings} lacings without a turn",
        es: "de {lacings} engrapes sin girar tuercas"
    }
    scatter_assumed { en: "assumed until measured", es: "supuesta hasta medirla" }
    scatter_weight(known, dof) {
        en: "{known}, {dof} degrees of freedom with what is assumed",
        es: "{known}, {dof} grados de libertad con lo supuesto"
    }
    scatter_assumed_weight(known, dof) {
        en: "{known}, weighted as {dof} degrees of freedom",
        es: "{known}, con peso de {dof} grados de libertad"
    }
}
