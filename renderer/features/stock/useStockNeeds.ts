import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';

/** How many things wait in Stock: to order, to chase, to count, to throw away, late orders, and pads that a wash would have ready in time. */
export function useStockNeeds(): number | undefined {
  const may = useMay('desk');
  const needs = useQuery('stock.needs', {}, { when: may, keep: true });
  if (!may || !needs.data) return undefined;
  const { toOrder, toChase, toCount, toWash, toThrow, late } = needs.data;
  return toOrder + toChase + toCount + toWash + toThrow + late;
}
