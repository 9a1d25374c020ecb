// Imports run one way. The order of core's folders is the order of the list: a folder imports
// only folders before it. The same list stands in DEVELOPERS.md.
const CORE_ORDER = require('./.core-order.json');

const coreRules = CORE_ORDER.map((folder, index) => ({
  name: `core-${folder}-imports-left`,
  severity: 'error',
  from: { path: `^core/${folder}/` },
  to: { path: `^core/(${CORE_ORDER.slice(index + 1).join('|') || 'nothing'})/` },
}));

module.exports = {
  forbidden: [
    ...coreRules,
    {
      name: 'core-imports-nothing-of-ours',
      severity: 'error',
      from: { path: '^core/' },
      to: { path: '^(device|receiver|ui|tests|hardware)/' },
    },
    {
      name: 'core-names-no-platform',
      severity: 'error',
      from: { path: '^core/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'device-imports-core-only',
      severity: 'error',
      from: { path: '^device/' },
      to: { path: '^(receiver|ui|tests)/' },
    },
    {
      name: 'receiver-imports-core-only',
      severity: 'error',
      from: { path: '^receiver/' },
      to: { path: '^(device|ui|tests)/' },
    },
    {
      name: 'ui-imports-core-only',
      severity: 'error',
      from: { path: '^ui/' },
      to: { path: '^(device|receiver|tests)/' },
    },
    {
      name: 'no-cycles',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    { name: 'no-lost-imports', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'svelte', 'types', 'node', 'default'],
      extensions: ['.ts', '.svelte', '.js', '.mjs', '.cjs'],
    },
    exclude: { path: '^(\\.build|node_modules)/' },
  },
};
