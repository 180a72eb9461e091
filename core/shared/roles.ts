/** Who may do what. An owner may all that the desk may, the desk all that a technician may. */
export const ROLES = ['technician', 'desk', 'owner'] as const;
export type Role = (typeof ROLES)[number];

/**
 * What an entry needs: a role, `anyone` (also before somebody has said who they are), or `ownerOnceSetUp`: the owner,
 * but anyone while the shop is not set up and has none.
 */
export type Needs = Role | 'anyone' | 'ownerOnceSetUp';

/** True when a person with role `has` (or nobody) may use an entry that needs `needs`. */
export function mayUse(has: Role | null, needs: Role | 'anyone'): boolean {
  if (needs === 'anyone') return true;
  return has !== null && ROLES.indexOf(has) >= ROLES.indexOf(needs);
}
