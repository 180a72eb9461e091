import type { ShopSettings } from '../../shared/settings.ts';
import type { Felt, ReadingPhase } from '../../shared/views/paint.ts';
import type { Defect, PanelId, Severity, Substrate } from '../../shared/vocabulary.ts';
import { safeRemoval } from './budget.ts';
import { type FilmSummary, type Reading, summarizeFilm } from './film.ts';
import type { Override } from './permit.ts';

/** What was noted on one inspection, as read; film in 0.1 µm. */
export type Noted = {
  readonly states: readonly {
    readonly panel: PanelId;
    readonly substrate: Substrate;
    readonly felt: Felt;
    readonly overridePerson: string;
    readonly overrideReason: string;
  }[];
  readonly findings: readonly {
    readonly id: string;
    readonly panel: PanelId;
    readonly defect: Defect;
    readonly severity: Severity;
    readonly lowTenthUm: number;
    readonly highTenthUm: number;
    readonly note: string;
  }[];
  readonly readings: readonly {
    readonly panel: PanelId;
    readonly phase: ReadingPhase;
    readonly tenthUm: number;
    readonly point: string | null;
  }[];
};

export type PanelFacts = {
  readonly panel: PanelId;
  readonly substrate: Substrate;
  readonly readable: boolean;
  readonly felt: Felt;
  readonly override: Override | null;
  readonly findings: Noted['findings'];
  readonly before: readonly Reading[];
  readonly after: readonly Reading[];
  readonly film: FilmSummary | null;
  readonly filmAfter: FilmSummary | null;
  readonly taken: number;
  /** Most this job may take, null where film is not known. */
  readonly safe: number | null;
};

/** Bumpers and mirrors are plastic unless somebody says otherwise. Common practice, no source. */
export function usualSubstrate(panel: PanelId): Substrate {
  return panel === 'fb' || panel === 'rb' || panel.endsWith('mi') ? 'plastic' : 'steel';
}

/** A gauge for metal reads steel and aluminium; plastic and composite give it nothing to measure against. */
export function isReadable(substrate: Substrate): boolean {
  return substrate === 'steel' || substrate === 'aluminium';
}

/** Everything that follows from what was noted on a panel. `taken` = booked at earlier visits, 0.1 µm. */
export function panelFacts(
  panel: PanelId,
  noted: Noted,
  taken: number,
  rules: ShopSettings['paint'],
): PanelFacts {
  const state = noted.states.find((s) => s.panel === panel);
  const substrate = state?.substrate ?? usualSubstrate(panel);
  const readable = isReadable(substrate);
  const of = (phase: ReadingPhase): Reading[] =>
    noted.readings.filter((r) => r.panel === panel && r.phase === phase);
  const before = of('before');
  const film = readable ? summarizeFilm(before, rules) : null;
  const after = of('after');
  return {
    panel,
    substrate,
    readable,
    felt: state?.felt ?? 'none',
    override: state?.overridePerson ? { person: state.overridePerson, reason: state.overrideReason } : null,
    findings: noted.findings.filter((f) => f.panel === panel),
    before,
    after,
    film,
    filmAfter: readable ? summarizeFilm(after, rules) : null,
    taken,
    safe: safeRemoval(
      film?.floor ?? null,
      rules.floorTenthUm,
      rules.lifeCapTenthUm,
      taken,
      film?.refinished ?? false,
    ),
  };
}
