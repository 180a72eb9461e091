import type { Minor } from '../shared/units.ts';
import type { ReasonInput, ReasonView, SentenceValue } from '../shared/views/stockSentence.ts';
import type { Judged } from './stockJudge.ts';
import type { Outlook } from './stockOutlook.ts';

/** Inputs, rule and source behind a suggestion, or behind its absence. */
export function reasonOf(of: Outlook, j: Judged): ReasonView {
  const { answer, link } = j;
  const amount = (key: string, value: number): ReasonInput => ({
    key: `stock.in.${key}`,
    value: { is: 'amount', amount: Math.round(value), unit: of.item.unit },
  });
  const plain = (key: string, value: SentenceValue): ReasonInput => ({ key: `stock.in.${key}`, value });
  const q = answer.quantity;
  const inputs = [
    amount('onHand', of.item.onHand),
    amount('onOrder', answer.onOrder),
    plain('arrives', { is: 'day', day: j.arrivesDay }),
    plain('arrivesNext', { is: 'day', day: j.arrivesNextDay }),
    amount('reserved', answer.reserved),
    amount('position', answer.position),
    amount('perDay', answer.perDay),
    plain('history', of.usualUse.days),
    plain('openDays', of.usualUse.openDays),
    plain('usedDays', of.usualUse.usedDays),
    amount('usualByThen', answer.usualByThen),
    answer.safety < 0 ? amount('mayLack', -answer.safety) : amount('safety', answer.safety),
    amount('reorderPoint', answer.reorderPoint),
    amount('shortfall', answer.shortfall),
    ...(q.economic === null ? [] : [amount('economic', q.economic)]),
    ...(q.shelfLimit === null ? [] : [amount('shelf', q.shelfLimit)]),
    ...(q.lifeLimit === null ? [] : [amount('life', q.lifeLimit)]),
    plain('price', { is: 'money', minor: q.priceMinor as Minor }),
    plain('packs', { is: 'packs', packs: q.packs, packSize: link.packSize, unit: of.item.unit }),
  ];
  const rule = answer.rare ? 'rare' : 'reorder';
  return {
    inputs: answer.order ? inputs : inputs.slice(0, 13),
    rule: answer.order ? `stock.rule.${rule}` : 'stock.rule.enough',
    source: `stock.source.${rule}`,
  };
}
