import { count, money } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { EstimateView, FactorView } from '#core/shared/views/estimate.ts';
import { STAGE_KINDS } from '#core/shared/vocabulary.ts';
import type { Say } from '../../bridge/texts.tsx';
import type { Why } from '../../ui/Figure.tsx';

/** One factor in words: what it multiplies, by how much, how sure, from how much work. */
export function factorText(f: FactorView, say: Say, manner: Manner): string {
  const figures = {
    factor: count(manner, f.factor, 2),
    low: count(manner, f.low, 2),
    high: count(manner, f.high, 2),
    n: f.n,
  };
  const kind = STAGE_KINDS.find((k) => k === f.of);
  const ofStage = f.what === 'stage' || f.what === 'testSpot';
  const of = ofStage && kind ? say(`word.stage.${kind}`) : f.of;
  const others = f.what === 'testSpot' && f.of === '';
  return say(`estimate.evidence.${others ? 'spotOthers' : f.what}`, { ...figures, of });
}

/** The hours opened: every factor with its evidence, the rule, its source. */
export function evidenceWhy(e: EstimateView, say: Say, manner: Manner): Why {
  const seen = e.factors.some((f) => f.n > 0);
  return {
    inputs: e.factors.map((f) => ({ label: factorText(f, say, manner) })),
    rule: say('why.hours'),
    source: say('source.hours'),
    ...(seen ? {} : { check: say('estimate.noHistory') }),
  };
}

/** What the price is made of, which hours are charged, and that materials without a price in Stock add nothing. */
export function priceWhy(e: EstimateView, say: Say, manner: Manner): Why {
  const { labourMinor, materialsMinor, chargedMin, rule } = e.price;
  const said = [say('why.price'), say(`why.priceRule.${rule}`)];
  return {
    inputs: [
      // To a hundredth: whoever multiplies it with the rate comes to the price beside it.
      { label: `${count(manner, chargedMin / 60, 2)} h`, value: money(manner, labourMinor) },
      { label: say('estimate.materials'), value: money(manner, materialsMinor) },
    ],
    rule: (withoutPrices(e) ? [...said, say('estimate.noPrices')] : said).join(' '),
    source: say('source.price'),
  };
}

/** Materials are planned, and none of them has a price in Stock that anything could be asked for. */
export function withoutPrices(e: Pick<EstimateView, 'price' | 'stages'>): boolean {
  return e.price.materialsMinor === 0 && e.stages.some((stage) => stage.materials.length > 0);
}
