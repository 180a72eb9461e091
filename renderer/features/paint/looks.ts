import { DRAWINGS } from '#core/shared/flatcar/bodies.ts';
import { count } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { TENTH_UM_PER_MIL } from '#core/shared/units.ts';
import type { InspectionView, PanelInspectionView } from '#core/shared/views/paint.ts';
import type { Level, PanelId } from '#core/shared/vocabulary.ts';
import type { Say } from '../../bridge/texts.tsx';
import type { PanelLook, PanelState } from '../../ui/flatcar/CarPanel.tsx';
import { FIELD_FROM } from '../../ui/flatcar/film.ts';

export const LAYERS = ['findings', 'film', 'plan', 'progress', 'pictures'] as const;
/** One set of facts over the same drawing. */
export type Layer = (typeof LAYERS)[number];

type Looks = Partial<Record<PanelId, PanelLook>>;
type Setting = { readonly manner: Manner; readonly say: Say; readonly thinTenthUm: number };

/** How every panel looks in a layer. */
export function looksOf(view: InspectionView, layer: Layer, setting: Setting): Looks {
  return Object.fromEntries(view.panels.map((p) => [p.panel, lookOf(view, p, layer, setting)]));
}

function lookOf(view: InspectionView, p: PanelInspectionView, layer: Layer, setting: Setting): PanelLook {
  switch (layer) {
    case 'findings':
      return findingLook(p, setting);
    case 'film':
      return filmLook(view, p, setting);
    case 'plan':
      return { state: PLAN_FORM[p.level], said: setting.say(`word.level.${p.level}`) };
    case 'progress':
      return progressLook(p, setting);
    case 'pictures':
      return p.pictures.length > 0 ? { state: 'outline', label: String(p.pictures.length) } : {};
  }
}

const PLAN_FORM: Readonly<Record<Level, PanelState>> = {
  leave: 'plain',
  washOnly: 'outline',
  oneStage: 'hatch',
  twoStage: 'work',
  threeStage: 'work',
  sanded: 'work',
};

function findingLook(p: PanelInspectionView, { say }: Setting): PanelLook {
  if (p.findings.length === 0) return {};
  const stays = p.findings.some((f) => f.verdict === 'stays' && f.reason !== 'noPlan');
  const said = p.findings.map((f) => say(`word.defect.${f.defect}`)).join(', ');
  return { state: stays ? 'lit' : 'hatch', label: String(p.findings.length), lit: stays, said };
}

function progressLook(p: PanelInspectionView, { say }: Setting): PanelLook {
  if (p.progress === null) return {};
  const state = p.progress === 'done' ? 'done' : p.progress === 'inWork' ? 'work' : 'outline';
  return { state, said: say(`word.stageState.${p.progress}`) };
}

/** Film of a panel: its mean, thin and refinished in their own forms, bands where enough points were read. */
function filmLook(view: InspectionView, p: PanelInspectionView, setting: Setting): PanelLook {
  const { manner, say, thinTenthUm } = setting;
  if (!p.readable) return { state: 'unread', said: say('paint.cantRead', { substrate: p.substrate }) };
  if (!p.film) return { state: 'unread' };
  const mil = manner.filmUnit === 'mil';
  const shown = mil ? p.film.meanTenthUm / TENTH_UM_PER_MIL : p.film.meanTenthUm / 10;
  const label = count(manner, shown, mil ? 2 : 0);
  if (p.film.refinished) return { state: 'cross', label, boxed: true, said: say('paint.refinished') };
  // Bands need three marked points; free readings say nothing about where, so the panel takes the tone of its mean.
  const marked = p.readings.filter((r) => r.phase === 'before' && r.at !== null);
  const [x, y] = DRAWINGS[view.body].panels[p.panel]?.at ?? [0, 0];
  const readings =
    marked.length >= FIELD_FROM
      ? marked.map((r) => ({ x: r.at?.x ?? x, y: r.at?.y ?? y, um: r.tenthUm / 10 }))
      : [{ x, y, um: p.film.meanTenthUm / 10 }];
  const film = { readings, thinUm: thinTenthUm / 10 };
  return p.film.thin ? { film, state: 'thin', label, lit: true, said: say('paint.thin') } : { film, label };
}
