import { describe, expect, it } from 'vitest';
import type { SupplierId } from '#core/shared/ids.ts';
import type { Minor } from '#core/shared/units.ts';
import { proposedPack } from '../../renderer/features/stock/came.ts';

const SELLER = 'seller' as SupplierId;
const OTHER = 'other' as SupplierId;
const item = { packSize: 1000 };
const link = { supplierId: SELLER, packSize: 5000, priceMinor: 3900 as Minor };
const came = { reason: 'delivery', amount: 2000, valueMinor: 5000 as Minor } as const;
const drawn = { reason: 'draw', amount: -100, valueMinor: -250 as Minor } as const;

describe('what a pack that nobody ordered is proposed at', () => {
  it('is what its seller asks for, in the seller’s pack', () => {
    const page = { item, links: [link], movements: [drawn, came] };
    expect(proposedPack(page, SELLER)).toEqual({ packSize: 5000, priceMinor: 3900, as: 'seller' });
  });

  it('is what was last paid where the seller has no price here', () => {
    // By hand: 50.00 for 2 litres are 25.00 for a pack of one.
    const page = { item, links: [link], movements: [drawn, came] };
    expect(proposedPack(page, OTHER)).toEqual({ packSize: 1000, priceMinor: 2500, as: 'last' });
  });

  it('is left to be said where nothing is known, and where the last came for nothing', () => {
    const unknown = { packSize: 1000, priceMinor: null, as: 'unknown' };
    expect(proposedPack({ item, links: [], movements: [drawn] }, SELLER)).toEqual(unknown);
    const free = { ...came, valueMinor: 0 as Minor };
    expect(proposedPack({ item, links: [], movements: [free] }, SELLER)).toEqual(unknown);
  });
});
