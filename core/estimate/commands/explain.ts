import type { ReadCtx } from '../../context.ts';
import type { estimateEntries } from '../../shared/catalogue/estimate.ts';
import type { InputOf } from '../../shared/entry.ts';
import { assertNever, refuse } from '../../shared/errors.ts';
import type { EstimateView, ExplainView } from '../../shared/views/estimate.ts';
import { estimateById } from '../../views/estimates.ts';
import { shopOf } from '../../views/shop.ts';

type Input = InputOf<(typeof estimateEntries)['estimate.explain']>;
type InputRow = ExplainView['inputs'][number];

/** The inputs, the rule and the source of one figure of an estimate. @throws NOT_FOUND */
export function explain(ctx: ReadCtx, input: Input): ExplainView {
  const e =
    estimateById(ctx.db, input.estimateId) ?? refuse('NOT_FOUND', { what: 'estimate', id: input.estimateId });
  const { inputs, source } = because(ctx, e, input);
  return { figure: input.figure, inputs, rule: `why.${input.figure}`, source };
}

type Because = { readonly inputs: readonly InputRow[]; readonly source: string };

function because(ctx: ReadCtx, e: EstimateView, input: Input): Because {
  switch (input.figure) {
    case 'hours':
      return {
        inputs: [
          ...e.stages.filter((s) => s.crew > 0).map((s) => row(`stage.${s.kind}`, s.estimatedMin, 'min')),
          ...e.factors.map((f) => row(`${f.what}${f.of ? `.${f.of}` : ''}`, round(f.factor), `n ${f.n}`)),
        ],
        source: 'Preston 1927; Fenton 1960; Morris 1983',
      };
    case 'price':
      return {
        inputs: [
          row('chargedMin', e.price.chargedMin, 'min'),
          row('rate', e.price.rateMinor, 'minor'),
          row('labour', e.price.labourMinor, 'minor'),
          row('materials', e.price.materialsMinor, 'minor'),
        ],
        source: 'shop',
      };
    case 'gain':
    case 'removal':
      return { inputs: panelInputs(e, input), source: input.figure === 'removal' ? 'Preston 1927' : 'shop' };
    case 'safe':
      return { inputs: filmInputs(ctx), source: 'ISO 2808; ASTM D7091; SSPC-PA 2' };
    default:
      return assertNever(input.figure);
  }
}

function panelInputs(e: EstimateView, input: Input): InputRow[] {
  const named = e.panels.filter((p) =>
    input.panel === null ? p.removalTenthUm > 0 : p.panel === input.panel,
  );
  return named.map((p) =>
    input.figure === 'gain'
      ? row(`panel.${p.panel}`, p.gainPpm, 'ppm')
      : row(`panel.${p.panel}`, p.removalTenthUm, 'tenthUm'),
  );
}

function filmInputs(ctx: ReadCtx): InputRow[] {
  const rules = shopOf(ctx.db).settings.paint;
  return [
    row('lifeCap', rules.lifeCapTenthUm, 'tenthUm'),
    row('floor', rules.floorTenthUm, 'tenthUm'),
    row('gaugeUncertainty', rules.gaugeUncertaintyTenthUm, 'tenthUm'),
  ];
}

function row(name: string, value: number, unit: string): InputRow {
  return { name, value, unit };
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
