// The arrows between rooms: each room may use those before it and never one after it. `npm run lint` holds them.
const ROOMS = [
  'base',
  'science',
  'trade',
  'model',
  'read',
  'plan',
  'say',
  'draw',
  'compose',
  'print',
  'fleet',
  'host',
  'commands',
];

/** Rooms that a room may not import, though they stand before it. */
const EXTRA = { trade: ['science'], host: [] };

const forbidden = ROOMS.map((room, i) => ({
  name: `${room}-looks-back`,
  severity: 'error',
  from: { path: `^src/${room}/` },
  to: { path: `^src/(${[...ROOMS.slice(i + 1), ...(EXTRA[room] ?? [])].join('|')})/` },
})).filter((rule) => !rule.to.path.endsWith('()/'));

module.exports = {
  forbidden: [
    ...forbidden,
    { name: 'science-stands-alone', severity: 'error', from: { path: '^src/science/' }, to: { path: '^src/(?!science/)' } },
    {
      name: 'only-the-door-to-node',
      severity: 'error',
      from: { path: '^src/(?!host/|commands/|cli)' },
      to: { dependencyTypes: ['core'] },
    },
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } } },
    { name: 'no-orphans', severity: 'error', from: { orphan: true, path: '^src/', pathNot: '\\.d\\.ts$' }, to: {} },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: { extensions: ['.ts', '.d.ts', '.js'] },
  },
};
