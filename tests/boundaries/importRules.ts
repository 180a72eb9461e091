/** Who may import whom. One rule per line of the table in DEVELOPERS.md; tests/boundaries plants a violation of each. */
const AREAS = 'access|shop|people|vehicles|paint|estimate|bookings|bays|stock|billing|figures';
const area = `core/(${AREAS})`;

type Side = Readonly<Record<string, unknown>>;
const forbid = (name: string, from: string, to: string, extra: { from?: Side; to?: Side } = {}) => ({
  name,
  severity: 'error' as const,
  from: { path: from, ...extra.from },
  to: { path: to, ...extra.to },
});
/** Everything of the project but the listed paths. */
const allBut = (...kept: readonly string[]) => ({
  path: '^(core|electron|renderer|seed|tests)/',
  pathNot: kept,
});

const only = (name: string, from: string, ...kept: readonly string[]) => ({
  name,
  severity: 'error' as const,
  from: { path: from },
  to: allBut(...kept),
});

export const importRules = {
  forbidden: [
    {
      name: 'no-cycles',
      severity: 'error' as const,
      from: { path: '^(core|electron|renderer|seed)/' },
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    only('shared-imports-only-shared', '^core/shared/', '^core/shared/'),
    {
      name: 'shared-has-no-node',
      severity: 'error' as const,
      from: { path: '^core/shared/' },
      to: { dependencyTypes: ['core'] },
    },
    only('rules-are-pure', `^${area}/rules/`, '^core/shared/', `^${area}/rules/`),
    {
      name: 'rules-have-no-node',
      severity: 'error' as const,
      from: { path: `^${area}/rules/` },
      to: { dependencyTypes: ['core'] },
    },
    forbid(
      'rules-have-no-database',
      `^${area}/rules/`,
      'node_modules/(better-sqlite3|drizzle-orm|electron|react)',
    ),
    only('store-writes-only', `^${area}/store`, '^core/(shared|db)/', `^${area}/store`, '^core/context.ts$'),
    {
      name: 'store-own-area',
      severity: 'error' as const,
      from: { path: `^${area}/store` },
      to: { path: `^${area}/store`, pathNot: '^core/$1/' },
    },
    {
      name: 'commands-own-store',
      severity: 'error' as const,
      from: { path: `^${area}/commands` },
      to: { path: `^${area}/(store|commands)`, pathNot: '^core/$1/' },
    },
    forbid('commands-not-flows', `^${area}/commands`, '^core/(flows|host|documents|contract)'),
    forbid('flows-not-stores', '^core/flows/', `^${area}/store`),
    only(
      'views-read-only',
      '^core/views/',
      '^core/(shared|db|views)/',
      '^core/context.ts$',
      `^${area}/rules/`,
    ),
    only('doctor-reads-only', '^core/doctor/', '^core/(shared|db|views|doctor)/', `^${area}/rules/`),
    only('documents-no-sql', '^core/documents/', '^core/(shared|documents)/'),
    forbid('only-host-has-contract', '^core/(?!host/|contract)', '^core/contract'),
    forbid('only-db-opens-sqlite', '^(core/(?!db/)|electron|renderer|seed)', 'node_modules/better-sqlite3', {
      from: { path: '^(core/(?!db/)|electron|renderer|seed)' },
      to: { dependencyTypesNot: ['type-only'] },
    }),
    only(
      'electron-is-thin',
      '^electron/',
      '^electron/',
      '^core/shared/',
      '^core/host/client.ts$',
      // the build copies the fonts that documents embed
      '^core/documents/pdfFonts.ts$',
    ),
    forbid('core-has-no-windows', '^core/', 'node_modules/(electron|react|react-dom)/'),
    only('renderer-sees-shared', '^renderer/', '^renderer/', '^core/shared/'),
    {
      name: 'renderer-has-no-node',
      severity: 'error' as const,
      from: { path: '^renderer/' },
      to: { dependencyTypes: ['core'] },
    },
    // Papers are written in more languages than the screens speak; only the core's workers carry those.
    forbid(
      'languages-only-by-papers',
      '^(?!core/shared/text/(papers|de|fr|es)\\.ts$)(core|electron|renderer|seed)/',
      '^core/shared/text/(de|fr|es)(/|\\.ts$)',
    ),
    forbid('screens-load-no-papers', '^(renderer|electron|core/shared)/', '^core/shared/text/papers\\.ts$'),
    forbid('renderer-has-no-electron', '^renderer/', 'node_modules/(electron|better-sqlite3)/'),
    {
      name: 'features-stand-alone',
      severity: 'error' as const,
      from: { path: '^renderer/features/([^/]+)/' },
      to: { path: '^renderer/(features|app)/', pathNot: '^renderer/features/$1/' },
    },
    forbid('widgets-know-no-features', '^renderer/(ui|bridge)/', '^renderer/(features|app)/'),
    only('seed-uses-the-door', '^seed/', '^seed/', '^core/shared/', '^core/host/batchDoor.ts$'),
    forbid('nobody-imports-tests-or-seed', '^(core|electron|renderer)/', '^(tests|seed)/'),
  ],
};
