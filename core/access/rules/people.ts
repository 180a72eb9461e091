import { foldText } from '../../people/rules/names.ts';
import { hasEnded } from '../../shared/ended.ts';
import { refuse } from '../../shared/errors.ts';
import type { Role } from '../../shared/roles.ts';
import type { LocalDay } from '../../shared/units.ts';

export type Member = {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly startedDay: LocalDay;
  readonly endedDay: LocalDay | null;
};

/**
 * Two people who are here at once need names that can be told apart at the sign-in.
 * @throws PERSON_NAME_TAKEN when somebody who has not left has the same name
 */
export function checkName(
  name: string,
  ownId: string | null,
  members: readonly Member[],
  today: LocalDay,
): void {
  const taken = members.some(
    (m) => m.id !== ownId && !hasEnded(m, today) && foldText(m.name) === foldText(name),
  );
  if (taken) refuse('PERSON_NAME_TAKEN', { name });
}

/**
 * Somebody must stay who may run the shop: an owner without a last day.
 * @throws LAST_OWNER when the person is the only one
 */
export function checkOwnerStays(leaving: Member, members: readonly Member[]): void {
  if (leaving.role !== 'owner') return;
  const others = members.some((m) => m.id !== leaving.id && m.role === 'owner' && m.endedDay === null);
  if (!others) refuse('LAST_OWNER', { name: leaving.name });
}

/** @throws PERSON_ENDED when somebody's last day is over */
export function checkNotEnded(member: Member, today: LocalDay): void {
  if (member.endedDay !== null && member.endedDay < today)
    refuse('PERSON_ENDED', { name: member.name, day: member.endedDay });
}

/** @throws PERSON_NOT_BEGUN before somebody's first day */
export function checkBegun(member: Member, today: LocalDay): void {
  if (member.startedDay > today) refuse('PERSON_NOT_BEGUN', { name: member.name, day: member.startedDay });
}
