import { z } from 'zod';
import { type Entry, read, write } from '../entry.ts';
import type { PersonId } from '../ids.ts';
import { ROLES } from '../roles.ts';
import type {
  HourCostRow,
  PinResult,
  PlacedStage,
  SignInResult,
  StaffRow,
  WhoIsHere,
} from '../views/people.ts';
import { localDayInput, personIdInput, revisionInput, tokenInput } from './inputs.ts';
import { newPerson, pinInput } from './shopInputs.ts';

const nothing = z.strictObject({});

/** Who is here, and the people of the shop. */
export const accessEntries = {
  'access.here': read<WhoIsHere>()({
    needs: 'anyone',
    about: 'Who may sign in today, and who is signed in at this window.',
    input: nothing,
    listens: ['people'],
  }),
  'access.signIn': write<SignInResult>()({
    needs: 'anyone',
    about: 'Signs a person in at the window that made the token; wrong PINs are counted and lead to waits.',
    input: z.strictObject({ personId: personIdInput, pin: pinInput.optional(), token: tokenInput }),
    touches: ['people'],
  }),
  'access.signOut': write<null>()({
    needs: 'anyone',
    about: 'Ends a window’s session.',
    input: z.strictObject({ token: tokenInput }),
    touches: ['people'],
  }),
  'access.people': read<readonly StaffRow[]>()({
    needs: 'technician',
    about: 'Everybody who works or worked in the shop.',
    input: nothing,
    listens: ['people'],
  }),
  'access.futureStages': read<readonly PlacedStage[]>()({
    needs: 'desk',
    about: 'The stages placed with somebody after a day: the one named, else their last day, else today.',
    input: z.strictObject({ personId: personIdInput, lastDay: localDayInput.optional() }),
    listens: ['people', 'plan', 'jobs', 'work'],
  }),
  'access.addPerson': write<{ readonly id: PersonId }>()({
    needs: 'owner',
    about: 'Adds somebody to the shop.',
    input: newPerson,
    touches: ['people'],
  }),
  'access.changePerson': write<null>()({
    needs: 'owner',
    about: 'Changes somebody’s name or role.',
    input: z.strictObject({
      personId: personIdInput,
      revision: revisionInput,
      name: z.string().max(400).optional(),
      role: z.enum(ROLES).optional(),
    }),
    touches: ['people'],
  }),
  'access.endPerson': write<{ readonly futureStages: readonly PlacedStage[] }>()({
    needs: 'owner',
    about: 'Says somebody’s last day; what they did stays, what is still placed with them is listed.',
    input: z.strictObject({ personId: personIdInput, revision: revisionInput, lastDay: localDayInput }),
    touches: ['people', 'plan'],
  }),
  'access.hourCosts': read<readonly HourCostRow[]>()({
    needs: 'owner',
    about: 'What an hour of each person’s work costs the shop, by the day from which it does.',
    input: nothing,
    listens: ['people', 'shop'],
  }),
  'access.setHourCost': write<null>()({
    needs: 'owner',
    about:
      'Says what an hour of somebody’s work costs the shop from a day on; null takes the row of that day away. Past days may be said anew: nobody was charged by it.',
    input: z.strictObject({
      personId: personIdInput,
      fromDay: localDayInput,
      hourCostMinor: z.int().min(0).max(100_000_000).nullable(),
      /** What stood for that day where it was read; null for nothing. */
      wasMinor: z.int().min(0).nullable(),
      /** Five times as much as an hour around it costs, or a fifth, is meant. */
      farMeant: z.boolean().default(false),
    }),
    touches: ['people'],
  }),
  'access.setPin': write<PinResult>()({
    needs: 'technician',
    about:
      'Sets or removes a PIN: one’s own (with the present one), or anybody’s by an owner. The person’s other windows are signed out.',
    input: z.strictObject({
      personId: personIdInput,
      pin: pinInput.nullable(),
      presentPin: pinInput.optional(),
      token: tokenInput.optional(),
    }),
    touches: ['people'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
