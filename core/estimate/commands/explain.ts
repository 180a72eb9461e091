import type { ReadCtx } from '../../context.ts';
import type { estimateEntries } from '../../shared/catalogue/estimate.ts';
import type { InputOf } from '../../shared/entry.ts';
import { assertNever, refuse } from '../../shared/errors.ts';
import type { TextKey } from '../../shared/text/en.ts';
import type { EstimateView, ExplainUnit, ExplainView, FactorView } from '../../shared/views/estimate.ts';
import { STAGE_KINDS } from '../../shared/vocabulary.ts';
import { estimateById } from '../../views/estimates.ts';
import { shopOf } from '../../views/shop.ts';

type Input = InputOf<(typeof estimateEntries)['estimate.explain']>;
type InputRow = ExplainView['inputs'][number];

/** The inputs, the rule and the source of one figure of an estimate, all as text keys. @throws NOT_FOUND */
export function explain(ctx: ReadCtx, input: Input): ExplainView {
  const { figure } = input;
  const e =
    estimateById(ctx.db, input.estimateId) ?? refuse('NOT_FOUND', { what: 'estimate', id: input.estimateId });
  return { figure, inputs: inputsOf(ctx, e, input), rule: `why.${figure}`, source: `source.${figure}` };
}

function inputsOf(ctx: ReadCtx, e: EstimateView, input: Input): readonly InputRow[] {
  switch (input.figure) {
    case 'hours':
      return [
        ...e.stages.filter((s) => s.crew > 0).map((s) => row(`word.stage.${s.kind}`, s.estimatedMin, 'min')),
        ...e.factors.map(factorRow),
      ];
    case 'price':
      return [
        row('why.input.charged', e.price.chargedMin, 'min'),
        row('why.input.rate', e.price.rateMinor, 'minor'),
        row('why.input.labour', e.price.labourMinor, 'minor'),
        row('why.input.materials', e.price.materialsMinor, 'minor'),
      ];
    case 'gain':
      return panelsOf(e, input).map((p) => row(`word.panel.${p.panel}`, p.gainPpm, 'ppm'));
    case 'removal':
      return panelsOf(e, input).map((p) => row(`word.panel.${p.panel}`, p.removalTenthUm, 'tenthUm'));
    case 'safe':
      return filmInputs(ctx);
    default:
      return assertNever(input.figure);
  }
}

function factorRow(f: FactorView): InputRow {
  const ofStage = f.what === 'stage' || f.what === 'testSpot';
  const kind = ofStage ? STAGE_KINDS.find((k) => k === f.of) : undefined;
  const spotOthers = f.what === 'testSpot' && f.of === '';
  const name: TextKey = kind ? `word.stage.${kind}` : `why.input.${spotOthers ? 'spotOthers' : f.what}`;
  return { name, value: Math.round(f.factor * 1000) / 1000, unit: 'factor', n: f.n };
}

function panelsOf(e: EstimateView, input: Input): EstimateView['panels'] {
  return e.panels.filter((p) => (input.panel === null ? p.removalTenthUm > 0 : p.panel === input.panel));
}

function filmInputs(ctx: ReadCtx): InputRow[] {
  const rules = shopOf(ctx.db).settings.paint;
  return [
    row('why.input.lifeCap', rules.lifeCapTenthUm, 'tenthUm'),
    row('why.input.floor', rules.floorTenthUm, 'tenthUm'),
    row('why.input.gauge', rules.gaugeUncertaintyTenthUm, 'tenthUm'),
  ];
}

function row(name: TextKey, value: number, unit: ExplainUnit): InputRow {
  return { name, value, unit, n: null };
}
