import type { ShopSettings } from '../../shared/settings.ts';
import type { Felt, ReadingPhase } from '../../shared/views/paint.ts';
import type { Defect, PanelId, Severity, Substrate } from '../../shared/vocabulary.ts';
import { type FilmSummary, type Reading, summarizeFilm } from './film.ts';
import { type MayCase, type MayCome, mayComeOff, type Taken } from './mayCome.ts';
import type { Override, SandingConsent } from './permit.ts';

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
  readonly consents: readonly (SandingConsent & { readonly panel: PanelId })[];
  readonly readings: readonly {
    readonly panel: PanelId;
    readonly phase: ReadingPhase;
    readonly tenthUm: number;
    readonly point: string | null;
    /** 1 = a machine has been on the panel since: it says nothing of what is left now. */
    readonly overtaken: 0 | 1;
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
  /** Read after the last machine work on the panel. */
  readonly after: readonly Reading[];
  readonly film: FilmSummary | null;
  readonly filmAfter: FilmSummary | null;
  readonly taken: Taken;
  /** Most over the vehicle's life: more where wet sanding is agreed at this visit. */
  readonly capTenthUm: number;
  /** What may still come off now. */
  readonly may: MayCome;
  /** Most this job may take in all, its own work counted in; null where film is not known. */
  readonly safe: number | null;
  /** The same where the panel is wet sanded: the cap that its owner's consent allows. */
  readonly sandable: number | null;
  readonly consent: SandingConsent | null;
};

/** Bumpers and mirrors are plastic unless somebody says otherwise. Common practice, no source. */
export function usualSubstrate(panel: PanelId): Substrate {
  return panel === 'fb' || panel === 'rb' || panel.endsWith('mi') ? 'plastic' : 'steel';
}

/** A gauge for metal reads steel and aluminium; plastic and composite give it nothing to measure against. */
export function isReadable(substrate: Substrate): boolean {
  return substrate === 'steel' || substrate === 'aluminium';
}

/** Nothing was ever taken, or it does not matter what was. */
export const NOTHING_TAKEN: Taken = { earlier: 0, here: 0, since: 0, spots: 0 };

/** Everything that follows from what was noted on a panel at a visit, and what was booked against it. */
export function panelFacts(
  panel: PanelId,
  noted: Noted,
  taken: Taken,
  rules: ShopSettings['paint'],
): PanelFacts {
  const state = noted.states.find((s) => s.panel === panel);
  const substrate = state?.substrate ?? usualSubstrate(panel);
  const readable = isReadable(substrate);
  const of = (phase: ReadingPhase): Reading[] =>
    noted.readings.filter((r) => r.panel === panel && r.phase === phase && r.overtaken === 0);
  const before = of('before');
  const film = readable ? summarizeFilm(before, rules) : null;
  const after = of('after');
  const filmAfter = readable ? summarizeFilm(after, rules) : null;
  const override = overrideOf(state);
  const c = { readable, before: film, after: filmAfter, taken, approved: override !== null };
  const consent = noted.consents.find((one) => one.panel === panel) ?? null;
  return {
    panel,
    substrate,
    readable,
    felt: state?.felt ?? 'none',
    override,
    findings: noted.findings.filter((f) => f.panel === panel),
    before,
    after,
    film,
    filmAfter,
    taken,
    ...limitsOf(c, consent, rules),
    consent,
  };
}

function overrideOf(state: Noted['states'][number] | undefined): Override | null {
  return state?.overridePerson ? { person: state.overridePerson, reason: state.overrideReason } : null;
}

/** What may come off now, and what this job might take had it not begun: polished, and where it is wet sanded. */
function limitsOf(
  c: Omit<MayCase, 'floorTenthUm' | 'capTenthUm'>,
  consent: SandingConsent | null,
  { floorTenthUm, lifeCapTenthUm, sandedCapTenthUm }: ShopSettings['paint'],
): Pick<PanelFacts, 'may' | 'safe' | 'sandable' | 'capTenthUm'> {
  const capTenthUm = consent === null ? lifeCapTenthUm : sandedCapTenthUm;
  const unworked = { ...c, after: null, taken: { ...c.taken, here: 0 }, floorTenthUm };
  return {
    capTenthUm,
    may: mayComeOff({ ...c, floorTenthUm, capTenthUm }),
    safe: mayComeOff({ ...unworked, capTenthUm: lifeCapTenthUm }).tenthUm,
    sandable: mayComeOff({ ...unworked, capTenthUm: sandedCapTenthUm }).tenthUm,
  };
}
