import { minorToDecimal } from '../shared/text/format.ts';
import type { BankView } from '../shared/views/billing.ts';
import { type Modules, qrCode } from './barcode.ts';

/** The largest amount the code may ask for: 999,999,999.99. */
const MOST_MINOR = 99_999_999_999;
const MOST_REMITTANCE = 140;
const MOST_BYTES = 331;
/** Version 13 of the square code. */
const MOST_MODULES = 69;

/** A transfer that a code asks for: to whom, how much in cents, and what it says there. */
export type Transfer = {
  readonly bank: BankView;
  readonly amountMinor: number;
  readonly currency: string;
  readonly text: string;
};

/**
 * The lines that a banking program reads from the code, or null where there can be none: another currency than the euro,
 * no amount, or more than fits. The bank's code may be left out in this version.
 * @source EPC069-12, version 002 of the data: service tag, version, character set 1 = UTF-8, SCT, bank's code, name of
 * up to 70 signs, account, amount, purpose, reference of up to 35 or text of up to 140 signs; what is empty at the end
 * is left out; 331 bytes at most
 */
export function transferLines(transfer: Transfer): string | null {
  const { bank, amountMinor, currency, text } = transfer;
  if (currency !== 'EUR' || amountMinor < 1 || amountMinor > MOST_MINOR) return null;
  const plain = (words: string): string => words.replace(/\s+/g, ' ').trim();
  const lines = [
    ...['BCD', '002', '1', 'SCT', bank.bic, plain(bank.holder), bank.iban],
    ...[`EUR${minorToDecimal(amountMinor, 2)}`, '', '', plain(text).slice(0, MOST_REMITTANCE)],
  ];
  const whole = lines.join('\n').replace(/\n+$/, '');
  return new TextEncoder().encode(whole).length <= MOST_BYTES ? whole : null;
}

/** The square code of a transfer, error correction M. Null where there can be none. @source EPC069-12: level M, version 13 at most */
export function transferCode(transfer: Transfer): Modules | null {
  const lines = transferLines(transfer);
  const code = lines === null ? null : qrCode(lines);
  return code && code.size <= MOST_MODULES ? code : null;
}
