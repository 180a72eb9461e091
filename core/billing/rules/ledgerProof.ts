import type { Account } from '#core/shared/settings/accounts.ts';
import type { Minor } from '#core/shared/units.ts';
import type { Posting } from './journal.ts';
import { sum } from './totals.ts';

export type AccountSum = {
  readonly account: Account;
  readonly debitMinor: Minor;
  readonly creditMinor: Minor;
};
export type LedgerProof = {
  readonly accounts: readonly AccountSum[];
  readonly debitMinor: Minor;
  readonly creditMinor: Minor;
};

/** Both sides of the bookings by account, in the order of their first booking, and in all: equal, or the books are wrong. */
export function ledgerProof(postings: readonly Posting[]): LedgerProof {
  const accounts = [...new Set(postings.map((p) => p.account))].map((account): AccountSum => {
    const own = postings.filter((p) => p.account === account);
    return {
      account,
      debitMinor: sum(own.map((p) => p.debitMinor)) as Minor,
      creditMinor: sum(own.map((p) => p.creditMinor)) as Minor,
    };
  });
  return {
    accounts,
    debitMinor: sum(accounts.map((a) => a.debitMinor)) as Minor,
    creditMinor: sum(accounts.map((a) => a.creditMinor)) as Minor,
  };
}
