import { customerFile } from '../flows/customerFile.ts';
import { eraseCustomer } from '../flows/eraseCustomer.ts';
import type { HandlersFor } from '../handler.ts';
import { addCustomer, changeCustomer } from '../people/commands.ts';
import type { peopleEntries } from '../shared/catalogue/people.ts';
import { addVehicle, changeVehicle } from '../vehicles/commands.ts';
import { checkVin } from '../vehicles/rules/vin.ts';
import { customerPage, vehiclePage } from '../views/customerPage.ts';
import { findAlmost, findCustomers, findVehicles } from '../views/findPeople.ts';

export const peopleHandlers: HandlersFor<typeof peopleEntries> = {
  'people.findCustomers': findCustomers,
  'people.findAlmost': findAlmost,
  'people.findVehicles': findVehicles,
  'people.addCustomer': addCustomer,
  'people.changeCustomer': changeCustomer,
  'people.eraseCustomer': eraseCustomer,
  'people.customerPage': customerPage,
  'people.customerFile': { make: customerFile },
  'people.addVehicle': addVehicle,
  'people.changeVehicle': changeVehicle,
  'people.vehiclePage': vehiclePage,
  'people.checkVin': (_ctx, input) => checkVin(input.vin),
};
