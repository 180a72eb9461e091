import type { PaperLanguage } from '../../shared/languages.ts';
import { type Said, saidOnly } from '../../shared/said.ts';
import type { CustomerKind } from '../../shared/views/people.ts';
import { cleanEmail, cleanLine, cleanLines, cleanName, foldText, phoneKey } from './names.ts';

/** What may be said of a customer; anything left out stays as it is. */
export type CustomerFields = {
  readonly kind?: CustomerKind | undefined;
  readonly name?: string | undefined;
  readonly phone?: string | undefined;
  readonly email?: string | undefined;
  readonly address?: string | undefined;
  readonly country?: string | undefined;
  readonly taxNumber?: string | undefined;
  readonly termsDays?: number | undefined;
  readonly language?: PaperLanguage | '' | undefined;
  readonly note?: string | undefined;
};

/**
 * What was said, cleaned, with the keys it is found by.
 * @throws NAME_MISSING, NAME_TOO_LONG, EMAIL_UNREADABLE
 */
export function cleanCustomer(
  said: CustomerFields,
): Said<CustomerFields & { readonly nameKey: string | undefined; readonly phoneKey: string | undefined }> {
  const { phone, email, address, taxNumber, note } = said;
  const name = said.name === undefined ? undefined : cleanName(said.name, 'customer');
  return saidOnly({
    ...said,
    name,
    nameKey: name === undefined ? undefined : foldText(name),
    phone: phone === undefined ? undefined : cleanLine(phone),
    phoneKey: phone === undefined ? undefined : phoneKey(phone),
    email: email === undefined ? undefined : cleanEmail(email),
    address: address === undefined ? undefined : cleanLines(address),
    taxNumber: taxNumber === undefined ? undefined : cleanLine(taxNumber),
    note: note === undefined ? undefined : cleanLines(note),
  });
}
