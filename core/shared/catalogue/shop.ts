import { z } from 'zod';
import { document, type Entry, read, write } from '../entry.ts';
import { LOGO_MOST_MB } from '../fileSizes.ts';
import type { PersonId } from '../ids.ts';
import type { JournalLine } from '../views/people.ts';
import type { ShopPage, ShopState } from '../views/shop.ts';
import { personIdInput, revisionInput } from './inputs.ts';
import {
  chargeInput,
  listPriceInput,
  packageInput,
  rateInput,
  settingChange,
  setUpInput,
  shopDetails,
  taxInput,
} from './shopInputs.ts';

/** Commands and queries of the shop area. */
export const shopEntries = {
  'shop.state': read<ShopState>()({
    needs: 'anyone',
    about: 'Whether a shop is set up here, and how it writes things.',
    input: z.strictObject({}),
    listens: ['shop'],
  }),
  'shop.page': read<ShopPage>()({
    needs: 'desk',
    about: 'The shop with its rules, and every dated rate and tax.',
    input: z.strictObject({}),
    listens: ['shop'],
  }),
  'shop.setUp': write<{ readonly ownerId: PersonId }>()({
    needs: 'anyone',
    about: 'Sets up the shop with its first owner, who is signed in with the given token. Once only.',
    input: setUpInput,
    touches: ['shop', 'people', 'bays', 'plan', 'work'],
  }),
  'shop.update': write<null>()({
    needs: 'owner',
    about: 'Changes what the shop is called, where it is and how it writes units.',
    input: z.strictObject({ revision: revisionInput, ...shopDetails.partial().shape }),
    touches: ['shop', 'plan', 'figures'],
  }),
  'shop.changeSettings': write<null>()({
    needs: 'owner',
    about: 'Changes rules of the shop by name, such as paint.thinTenthUm.',
    input: z.strictObject({ revision: revisionInput, changes: z.array(settingChange).min(1).max(60) }),
    touches: ['shop', 'paint', 'estimates', 'plan', 'stock', 'figures'],
  }),
  'shop.setRate': write<{ readonly id: string }>()({
    needs: 'owner',
    about: 'Sets the price of a person hour from a day on.',
    input: rateInput,
    touches: ['shop', 'estimates'],
  }),
  'shop.setTax': write<{ readonly id: string }>()({
    needs: 'owner',
    about: 'Sets a tax from a day on.',
    input: taxInput,
    touches: ['shop', 'estimates'],
  }),
  'shop.setCharge': write<{ readonly id: string }>()({
    needs: 'owner',
    about: 'Sets the least a job costs, or a surcharge for rush or hours out of opening, from a day on.',
    input: chargeInput,
    touches: ['shop'],
  }),
  'shop.setPackage': write<{ readonly id: string }>()({
    needs: 'owner',
    about:
      'Sets the price of a package from a day on, of the same work as before unless said; none = no longer offered.',
    input: packageInput,
    touches: ['shop'],
  }),
  'shop.setListPrice': write<{ readonly id: string }>()({
    needs: 'owner',
    about:
      'Sets the price of a thing, or of a panel at what is done to it, from a day on; none = no longer offered.',
    input: listPriceInput,
    touches: ['shop'],
  }),
  'shop.setLogo': write<null>()({
    needs: 'owner',
    about: `Puts a logo (PNG or JPEG, base64, up to ${LOGO_MOST_MB} MB) at the head of documents, in place of the one before.`,
    input: z.strictObject({ logoBase64: z.string().min(16).max(4_000_000) }),
    touches: ['shop'],
  }),
  'shop.removeLogo': write<null>()({
    needs: 'owner',
    about: 'Takes the logo off documents to come.',
    input: z.strictObject({}),
    touches: ['shop'],
  }),
  'shop.logoFile': document()({
    needs: 'desk',
    about: 'The logo as it was chosen.',
    input: z.strictObject({}),
  }),
  'shop.journal': read<{ readonly lines: readonly JournalLine[]; readonly older: number | null }>()({
    needs: 'owner',
    about: 'Who did what and when, newest first.',
    input: z.strictObject({
      before: z.int().min(1).optional(),
      subject: z.string().max(40).optional(),
      personId: personIdInput.optional(),
      limit: z.int().min(1).max(200).default(50),
    }),
    listens: ['shop', 'people', 'customers', 'vehicles', 'jobs', 'work', 'stock', 'invoices', 'payments'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
