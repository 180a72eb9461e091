import { z } from 'zod';
import { document, type Entry, read, write } from '../entry.ts';
import type { CustomerId, VehicleId } from '../ids.ts';
import { PAPER_LANGUAGES } from '../languages.ts';
import { MOST_LETTERS } from '../letters.ts';
import { problem } from '../problems.ts';
import type {
  AlmostMatch,
  CustomerHit,
  CustomerPage,
  VehicleHit,
  VehiclePage,
  VinCheck,
} from '../views/people.ts';
import { BODY_STYLES, PAINT_HARDNESS } from '../vocabulary.ts';
import { customerIdInput, revisionInput, vehicleIdInput } from './inputs.ts';

const looked = z.string().max(200);

const customerFields = z.strictObject({
  kind: z.enum(['person', 'firm']).optional(),
  name: z.string().max(400).optional(),
  phone: z.string().max(MOST_LETTERS.phone).optional(),
  email: z.string().max(MOST_LETTERS.email).optional(),
  address: z.string().max(MOST_LETTERS.address).optional(),
  country: z
    .string()
    .regex(/^([A-Z]{2})?$/, problem('noCountryOrEmpty'))
    .optional(),
  taxNumber: z.string().max(MOST_LETTERS.taxNumber).optional(),
  termsDays: z.int().min(0).max(365).optional(),
  language: z.enum(['', ...PAPER_LANGUAGES]).optional(),
  note: z.string().max(MOST_LETTERS.note).optional(),
});

const vehicleFields = z.strictObject({
  body: z.enum(BODY_STYLES).optional(),
  makeModel: z.string().max(MOST_LETTERS.makeModel).optional(),
  colour: z.string().max(MOST_LETTERS.colour).optional(),
  year: z.int().nullable().optional(),
  plate: z.string().max(MOST_LETTERS.plate).optional(),
  vin: z.string().max(MOST_LETTERS.vin).optional(),
  lengthMm: z.int().min(1500).max(12_000).nullable().optional(),
  widthMm: z.int().min(1000).max(3500).nullable().optional(),
  heightMm: z.int().min(800).max(4500).nullable().optional(),
  hardness: z.enum(PAINT_HARDNESS).optional(),
  note: z.string().max(MOST_LETTERS.note).optional(),
});

/** Commands and queries of the people area: customers and their vehicles. */
export const peopleEntries = {
  'people.findCustomers': read<readonly CustomerHit[]>()({
    needs: 'desk',
    about: 'Customers by name, telephone or plate, best first; without a text the latest ones.',
    input: z.strictObject({ text: looked.default(''), limit: z.int().min(1).max(100).default(20) }),
    listens: ['customers', 'vehicles', 'jobs'],
  }),
  'people.findAlmost': read<AlmostMatch | null>()({
    needs: 'desk',
    about: 'A known customer with the same telephone or plate whose name is at most two letters off.',
    input: z.strictObject({ name: looked, phone: looked.default(''), plate: looked.default('') }),
    listens: ['customers', 'vehicles'],
  }),
  'people.findVehicles': read<readonly VehicleHit[]>()({
    needs: 'technician',
    about: 'Vehicles by plate, make and model, vehicle number or owner.',
    input: z.strictObject({ text: looked, limit: z.int().min(1).max(100).default(20) }),
    listens: ['customers', 'vehicles'],
  }),
  'people.addCustomer': write<{ readonly id: CustomerId }>()({
    needs: 'desk',
    about: 'Adds a customer; a name is enough.',
    input: customerFields.required({ name: true }),
    touches: ['customers'],
  }),
  'people.changeCustomer': write<null>()({
    needs: 'desk',
    about: 'Changes what is known of a customer.',
    input: z.strictObject({
      customerId: customerIdInput,
      revision: revisionInput,
      ...customerFields.shape,
    }),
    touches: ['customers', 'jobs'],
  }),
  'people.eraseCustomer': write<null>()({
    needs: 'owner',
    about:
      'Removes all of a customer that books need not keep; refused while a job is open or money is owed or held.',
    input: z.strictObject({ customerId: customerIdInput, revision: revisionInput }),
    touches: ['customers', 'vehicles', 'jobs', 'quotes', 'paint'],
  }),
  'people.customerPage': read<CustomerPage>()({
    needs: 'desk',
    about: 'A customer with vehicles, jobs and what is owed.',
    input: z.strictObject({ customerId: customerIdInput }),
    listens: ['customers', 'vehicles', 'jobs', 'invoices', 'payments'],
  }),
  'people.customerFile': document()({
    needs: 'desk',
    about: 'Everything that is kept about a customer as one JSON file, pictures within it.',
    input: z.strictObject({ customerId: customerIdInput }),
  }),
  'people.addVehicle': write<{ readonly id: VehicleId; readonly vinCheck: VinCheck }>()({
    needs: 'desk',
    about:
      'Adds a vehicle to a customer; a body style is enough. A vehicle number that does not fit is kept.',
    input: z.strictObject({
      customerId: customerIdInput,
      ...vehicleFields.required({ body: true }).shape,
    }),
    touches: ['vehicles'],
  }),
  'people.changeVehicle': write<{ readonly vinCheck: VinCheck }>()({
    needs: 'desk',
    about: 'Changes what is known of a vehicle, also who keeps it now.',
    input: z.strictObject({
      vehicleId: vehicleIdInput,
      revision: revisionInput,
      customerId: customerIdInput.optional(),
      ...vehicleFields.shape,
    }),
    touches: ['vehicles', 'jobs'],
  }),
  'people.vehiclePage': read<VehiclePage>()({
    needs: 'technician',
    about: 'A vehicle with its keepers and visits.',
    input: z.strictObject({ vehicleId: vehicleIdInput }),
    listens: ['vehicles', 'customers', 'jobs'],
  }),
  'people.checkVin': read<VinCheck>()({
    needs: 'anyone',
    about: 'What does not fit in a vehicle number, and where.',
    input: z.strictObject({ vin: z.string().max(MOST_LETTERS.vin) }),
    listens: [],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
