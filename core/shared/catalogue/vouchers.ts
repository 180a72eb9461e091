import { z } from 'zod';
import { document, type Entry, read, write } from '../entry.ts';
import type { InvoiceId, PersonId, VoucherId } from '../ids.ts';
import type { Minor } from '../units.ts';
import { VOUCHER_LISTS, type VouchersPage, type VoucherView } from '../views/vouchers.ts';
import { customerId, date, id, invoiceId, money, note, way } from './billingInputs.ts';
import { localDayInput } from './inputs.ts';

const number = z.int().min(1).max(1_000_000_000);
const voucherId = id.transform((v) => v as VoucherId);

/** Gift vouchers, and tips that are paid out. */
export const voucherEntries = {
  'billing.listVouchers': read<VouchersPage>()({
    needs: 'desk',
    about: 'Gift vouchers, the newest first, with what is left of each; found by number or name.',
    input: z.strictObject({
      search: z.string().trim().max(120).default(''),
      list: z.enum(VOUCHER_LISTS).default('all'),
      limit: z.int().min(1).max(500).default(100),
    }),
    listens: ['payments', 'invoices', 'customers', 'shop'],
  }),
  'billing.readVoucher': read<VoucherView>()({
    needs: 'desk',
    about: 'One gift voucher and what became of it.',
    input: z.strictObject({ voucherId }),
    listens: ['payments', 'invoices', 'customers', 'shop'],
  }),
  'billing.voucherFile': document()({
    needs: 'desk',
    about: 'A gift voucher as a PDF.',
    input: z.strictObject({ voucherId }),
  }),
  'billing.sellVoucher': write<{
    readonly voucherId: VoucherId;
    readonly number: number;
    readonly code: string;
    readonly receipt: number;
    readonly invoiceId: InvoiceId | null;
  }>()({
    needs: 'desk',
    about:
      'Sells a gift voucher, to a customer or to somebody not named: held untaxed until used, or taxed at once, as the shop has set.',
    input: z.strictObject({
      ...{ customerId: customerId.nullable(), amountMinor: money, way, note, date },
      forName: z.string().trim().max(120).default(''),
    }),
    touches: ['payments', 'invoices'],
  }),
  'billing.useVoucher': write<{ readonly leftMinor: Minor }>()({
    needs: 'desk',
    about:
      'Uses a gift voucher by the code on it: an untaxed one pays an issued invoice, a taxed one comes off a draft.',
    input: z.strictObject({ code: z.string().trim().min(1).max(40), invoiceId, amountMinor: money }),
    touches: ['payments', 'invoices', 'jobs', 'figures'],
  }),
  'billing.leaveVoucher': write<{ readonly invoiceId: InvoiceId }>()({
    needs: 'desk',
    about: 'Takes a gift voucher off a draft again.',
    input: z.strictObject({ number, invoiceId }),
    touches: ['invoices', 'jobs'],
  }),
  'billing.returnToVoucher': write<{ readonly leftMinor: Minor }>()({
    needs: 'desk',
    about: 'Gives an untaxed gift voucher back what it paid on an invoice on which the shop now owes.',
    input: z.strictObject({ number, invoiceId, amountMinor: money }),
    touches: ['payments', 'invoices', 'jobs'],
  }),
  'billing.payVoucherBack': write<{ readonly receipt: number }>()({
    needs: 'desk',
    about: 'Pays back what is left of an untaxed gift voucher, or a part of it.',
    input: z.strictObject({ number, amountMinor: money, way, note }),
    touches: ['payments'],
  }),
  'billing.letVouchersGo': write<{ readonly letGoMinor: Minor }>()({
    needs: 'owner',
    about:
      'Lets what is left of expired gift vouchers go as income, once the time the shop holds it is over.',
    input: z.strictObject({ voucherIds: z.array(voucherId).min(1).max(500) }),
    touches: ['payments'],
  }),
  'billing.restoreVoucher': write<{ readonly leftMinor: Minor }>()({
    needs: 'owner',
    about: 'Holds the money of a gift voucher again that was let go.',
    input: z.strictObject({ voucherId }),
    touches: ['payments'],
  }),
  'billing.takeVoucherLate': write<{ readonly leftMinor: Minor }>()({
    needs: 'owner',
    about: 'Takes a gift voucher until a later day than its sheet says; money that was let go is held again.',
    input: z.strictObject({ voucherId, untilDay: localDayInput }),
    touches: ['payments'],
  }),
  'billing.payTips': write<{ readonly receipt: number }>()({
    needs: 'owner',
    about: 'Pays tips out to whom they were given; without a person those that everybody shares.',
    input: z.strictObject({
      personId: id.transform((v) => v as PersonId).nullable(),
      ...{ amountMinor: money, way, note },
    }),
    touches: ['payments'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
