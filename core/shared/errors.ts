/**
 * Refusals a person can act on. One closed union: the renderer, documents and the door each
 * turn a code and its data into a sentence through `core/shared/text`.
 * Each area lists its codes in `errors/<area>.ts` as a map of code to its data.
 */
import type { AccessErrors } from './errors/access.ts';
import type { BaysErrors } from './errors/bays.ts';
import type { BillingErrors } from './errors/billing.ts';
import type { BookingsErrors } from './errors/bookings.ts';
import type { CommonErrors } from './errors/common.ts';
import type { PaintErrors } from './errors/paint.ts';
import type { PeopleErrors } from './errors/people.ts';
import type { ShopErrors } from './errors/shop.ts';
import type { StockErrors } from './errors/stock.ts';
import type { WhatIfErrors } from './errors/whatIf.ts';

export type ErrorData = CommonErrors &
  AccessErrors &
  PeopleErrors &
  ShopErrors &
  PaintErrors &
  BookingsErrors &
  BaysErrors &
  StockErrors &
  BillingErrors &
  WhatIfErrors;
export type ErrorCode = keyof ErrorData;
export type PlainError = {
  readonly [C in ErrorCode]: { readonly code: C; readonly data: ErrorData[C] };
}[ErrorCode];

/** Thrown by rules, stores, commands and flows; rolls the transaction back and becomes the reply. */
export class DomainError<C extends ErrorCode = ErrorCode> extends Error {
  readonly code: C;
  readonly data: ErrorData[C];
  constructor(code: C, data: ErrorData[C]) {
    super(`${code} ${JSON.stringify(data)}`);
    this.name = 'DomainError';
    this.code = code;
    this.data = data;
  }
}

/** Stops with a refusal the user can act on. */
export function refuse<C extends ErrorCode>(code: C, data: ErrorData[C]): never {
  throw new DomainError(code, data);
}

/** Stops on a bug: logged with its stack, the user gets a reference number. */
export function invariant(condition: unknown, message: string): asserts condition {
  if (!condition) throw new Error(`invariant: ${message}`);
}

/** Makes a switch over a union exhaustive at compile time. */
export function assertNever(value: never): never {
  throw new Error(`unexpected value ${JSON.stringify(value)}`);
}
