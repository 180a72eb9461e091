import { addPerson, changePerson, endPerson } from '../access/commands.ts';
import { setHourCost } from '../access/hourCost.ts';
import { setPin, signIn, signOut } from '../access/signIn.ts';
import type { HandlersFor } from '../handler.ts';
import type { accessEntries } from '../shared/catalogue/access.ts';
import { futureStages } from '../views/futureStages.ts';
import { hourCosts, staff, whoIsHere } from '../views/people.ts';

export const accessHandlers: HandlersFor<typeof accessEntries> = {
  'access.here': whoIsHere,
  'access.signIn': signIn,
  'access.signOut': signOut,
  'access.people': staff,
  'access.futureStages': futureStages,
  'access.addPerson': addPerson,
  'access.changePerson': changePerson,
  'access.endPerson': endPerson,
  'access.hourCosts': hourCosts,
  'access.setHourCost': setHourCost,
  'access.setPin': setPin,
};
