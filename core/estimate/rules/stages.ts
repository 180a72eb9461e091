import type { Override, SandingConsent } from '../../paint/rules/permit.ts';
import type { Protection, Wish } from '../../shared/views/estimate.ts';
import type { Felt } from '../../shared/views/paint.ts';
import type {
  BayKind,
  Level,
  PaintHardness,
  PanelId,
  StageKind,
  Substrate,
} from '../../shared/vocabulary.ts';
import type { GainFinding } from './gain.ts';
import { worstSeverity } from './gain.ts';
import type { Hands } from './hands.ts';
import { type Amounts, amounts, CLAY_PIECE_MG, clayPieces, PER_M2, padLoadUl } from './materials.ts';
import type { PanelSize } from './panels.ts';
import { type PassFactors, panelWork, passesFor, type StepWork, type WorkRules } from './panelWork.ts';
import { SAND_PER_M2, type SandingWork, sandingOf, sandingWork } from './sanding.ts';

/** One panel with everything the estimate knows about it. Film in 0.1 µm. */
export type PanelCase = {
  readonly size: PanelSize;
  readonly substrate: Substrate;
  /** The shop's gauge reads this substrate. */
  readonly readable: boolean;
  readonly findings: readonly GainFinding[];
  readonly felt: Felt;
  readonly thin: boolean;
  readonly refinished: boolean;
  /** Most this job may take; null where film is not known. */
  readonly safe: number | null;
  /** The same where it is wet sanded, and the owner's word that it may be. */
  readonly sandable: number | null;
  readonly consent: SandingConsent | null;
  readonly readings: number;
  readonly override: Override | null;
};

export type WholeJob = Hands & {
  readonly wish: Wish;
  readonly interior: boolean;
  readonly protection: Protection;
  readonly hardness: PaintHardness;
  /** True before anybody has seen the paint: the visit under the lamp is part of the work. */
  readonly unseen: boolean;
  /** Kinds of place the shop has: a stage asks for one of them. */
  readonly bayKinds: readonly BayKind[];
  readonly passFactors: PassFactors;
  readonly dropUl: number;
  readonly dropsPerPad: number;
};

/** A stage before calibration: minutes and amounts unrounded. */
export type RawStage = {
  readonly kind: StageKind;
  readonly panels: readonly PanelId[];
  readonly minutes: number;
  readonly dwellMin: number;
  readonly amounts: Amounts;
};

/** Minutes fixed per job and per square metre. @source common practice, no source */
const WASH = { fixed: 18, perM2: 2.4 } as const;
const DECON = { fixed: 8, perM2: 1.2 } as const;
const CLAY = { fixed: 4, perM2: 2.4 } as const;
const MASK = { fixed: 8, perPanel: 1.2, sanded: 4 } as const;
const WIPE = { fixed: 3, perM2: 1 } as const;
const SEAL = { fixed: 6, perM2: 2.5 } as const;
const COAT = { fixed: 15, perM2: 6 } as const;
const CHECK = { fixed: 12, perM2: 0.6 } as const;
const INTERIOR = { fixed: 70, perM2: 3 } as const;
const LOOK_MIN = 20;
const FELT_FACTOR: Readonly<Record<Felt, number>> = { none: 0.8, light: 1, moderate: 1.4, heavy: 2.2 };
const CURE_MIN = { sealant: 60, coating: 720 } as const;

/** What one panel at one level adds to the stages of a job, and the film it takes. Adds up over panels. */
export type PanelShare = {
  readonly steps: readonly StepWork[];
  readonly sanding: SandingWork | null;
  /** 0.1 µm; of wet sanding the deepest it may go, and the polishing after it. */
  readonly removal: number;
  readonly parts: readonly RawStage[];
};

export function panelShare(panel: PanelCase, level: Level, job: WholeJob, rules: WorkRules): PanelShare {
  const severity = worstSeverity(panel.findings);
  const work = panelWork(panel.size, level, severity, job.hardness, rules, job.passFactors);
  if (work.steps.length === 0) return { steps: [], sanding: null, removal: 0, parts: [] };
  const id = [panel.size.panel];
  const m2 = panel.size.areaCm2 / 10_000;
  const edgeMm = 4 * Math.sqrt(panel.size.areaCm2 * 100);
  const sanding = level === 'sanded' ? panelSanding(panel, job, rules) : null;
  const parts: RawStage[] = [
    raw('mask', id, MASK.perPanel, [['maskingTape', edgeMm]]),
    ...(sanding ? sandParts(panel, sanding, edgeMm) : []),
    raw('panelWipe', id, WIPE.perM2 * m2, [
      ['panelWipe', PER_M2.panelWipeUl * m2],
      ['towel', m2 / 3],
    ]),
    ...work.steps.map((s) => machinePart(panel, s, job, rules)),
  ];
  return { steps: work.steps, sanding, removal: work.removalTenthUm + (sanding?.high ?? 0), parts };
}

/** Wet sanding that a panel's damage asks for; null where polishing may and can reach it. */
export function panelSanding(panel: PanelCase, job: WholeJob, rules: WorkRules): SandingWork | null {
  const most = panelWork(
    panel.size,
    'threeStage',
    worstSeverity(panel.findings),
    job.hardness,
    rules,
    job.passFactors,
  );
  const polished = Math.min(panel.safe ?? Number.POSITIVE_INFINITY, most.removalTenthUm);
  const depth = sandingOf(panel.findings, polished);
  return depth && sandingWork(panel.size, depth, job.hardness);
}

/** The sanding itself, and its edges masked a second time: they wear through first. */
function sandParts(panel: PanelCase, sanding: SandingWork, edgeMm: number): RawStage[] {
  const id = [panel.size.panel];
  const m2 = panel.size.areaCm2 / 10_000;
  return [
    raw('mask', id, MASK.sanded, [['maskingTape', edgeMm]]),
    raw('sand', id, sanding.minutes, [
      ['sandingDisc', SAND_PER_M2.sandingDisc * m2],
      ['fineSandingDisc', SAND_PER_M2.fineSandingDisc * m2],
      ['shampoo', SAND_PER_M2.shampooUl * m2],
      ['towel', m2],
      ['gloves', 2],
    ]),
  ];
}

function machinePart(panel: PanelCase, s: StepWork, job: WholeJob, rules: WorkRules): RawStage {
  const step = rules.steps[s.role];
  const usual = passesFor(s.role, 'moderate', 'medium', rules);
  const liquid = padLoadUl(s.sections, step.sectionsPerPad, s.passes / usual, job.dropsPerPad, job.dropUl);
  const pad = s.padMm === null ? 'applicator' : step.pad;
  return raw(s.stage, [panel.size.panel], s.minutes, [
    [step.liquid, liquid],
    [pad, s.sections / step.sectionsPerPad],
    ['towel', s.sections / 12],
  ]);
}

/** Stages that do not depend on how far each panel is taken, only on whether any machine runs. */
export function stageFrame(panels: readonly PanelCase[], job: WholeJob, machine: boolean): RawStage[] {
  const m2 = panels.reduce((sum, p) => sum + p.size.areaCm2, 0) / 10_000;
  const outside = job.wish !== 'interior' || machine;
  const prepared = machine || (outside && job.wish !== 'clean');
  const frame: RawStage[] = [];
  if (job.unseen) frame.push(raw('inspection', [], LOOK_MIN, []));
  if (outside) frame.push(washStage(m2));
  if (prepared) frame.push(deconStage(panels, m2), clayStage(panels, m2));
  if (machine) frame.push(raw('mask', [], MASK.fixed, [['gloves', 2]]), raw('panelWipe', [], WIPE.fixed, []));
  if (outside && job.protection !== 'none') frame.push(...protectStages(m2, job.protection));
  if (job.interior || job.wish === 'interior') frame.push(interiorStage(m2));
  frame.push(raw('finalCheck', [], CHECK.fixed + CHECK.perM2 * m2, []));
  return frame;
}

function washStage(m2: number): RawStage {
  return raw('wash', [], WASH.fixed + WASH.perM2 * m2, [
    ['shampoo', 20_000 + PER_M2.shampooUl * m2],
    ['towel', 2],
    ['washMitt', 2],
    ['glassCleaner', 30_000],
  ]);
}

function deconStage(panels: readonly PanelCase[], m2: number): RawStage {
  const heavy = feltFactor(panels);
  return raw('decontaminate', [], DECON.fixed + DECON.perM2 * m2 * heavy, [
    ['ironRemover', PER_M2.ironUl * m2 * heavy],
    ['tarRemover', PER_M2.tarUl * m2 * heavy],
    ['gloves', 2],
  ]);
}

function clayStage(panels: readonly PanelCase[], m2: number): RawStage {
  const areas = panels.map((p) => ({ areaCm2: p.size.areaCm2, felt: p.felt }));
  return raw('clay', [], CLAY.fixed + CLAY.perM2 * m2 * feltFactor(panels), [
    ['clayBar', clayPieces(areas) * CLAY_PIECE_MG],
    ['clayLube', PER_M2.clayLubeUl * m2],
    ['towel', 2],
  ]);
}

/** Area-weighted: one gritty bonnet does not slow the whole car. */
function feltFactor(panels: readonly PanelCase[]): number {
  const area = panels.reduce((sum, p) => sum + p.size.areaCm2, 0);
  if (area === 0) return 1;
  return panels.reduce((sum, p) => sum + p.size.areaCm2 * FELT_FACTOR[p.felt], 0) / area;
}

function protectStages(m2: number, kind: 'sealant' | 'coating'): RawStage[] {
  const time = kind === 'coating' ? COAT : SEAL;
  const amount = (kind === 'coating' ? PER_M2.coatingUl : PER_M2.sealantUl) * m2;
  const protect = raw('protect', [], time.fixed + time.perM2 * m2, [
    [kind, amount],
    ['applicator', kind === 'coating' ? m2 / 3 : 1],
    ['towel', m2 / 2],
    ['gloves', 2],
  ]);
  return [protect, { ...raw('cure', [], 0, []), dwellMin: CURE_MIN[kind] }];
}

function interiorStage(m2: number): RawStage {
  return raw('interior', [], INTERIOR.fixed + INTERIOR.perM2 * m2, [
    ['interiorCleaner', 120_000],
    ['glassCleaner', 40_000],
    ['towel', 4],
    ['gloves', 2],
  ]);
}

type Entry = Parameters<typeof amounts>[0][number];

function raw(kind: StageKind, panels: readonly PanelId[], minutes: number, used: readonly Entry[]): RawStage {
  return { kind, panels, minutes, dwellMin: 0, amounts: amounts(used) };
}
