// The import arrows of the project, enforced. `program` and `trade` stand alone; everything else points inward:
// assist -> process -> { program, trade, machine, picture }, and cut -> { program, trade }.

const own = '^(server|client)/src/';

/** Forbids imports of our own files from one folder to anything but the named folders and files. */
function mayImportOnly(folder, allowedPlaces) {
  const allowed = [folder, ...allowedPlaces].map((each) => `server/src/${each}${each.endsWith('.ts') ? '$' : '/'}`);
  return {
    name: `${folder}-imports-only-${allowedPlaces.join('-') || 'itself'}`,
    severity: 'error',
    from: { path: `^server/src/${folder}/` },
    to: { path: own, pathNot: `^(${allowed.join('|')})` },
  };
}

const core = '^server/src/(program|trade|machine|process|picture|cut|assist)/';
const editorProtocol = '(vscode-languageserver|vscode-languageclient|vscode-jsonrpc|^vscode$)';

module.exports = {
  forbidden: [
    mayImportOnly('program', []),
    mayImportOnly('trade', []),
    mayImportOnly('picture', ['trade']),
    mayImportOnly('machine', ['program']),
    mayImportOnly('cut', ['program', 'trade']),
    mayImportOnly('process', ['program', 'trade', 'machine', 'picture', 'cut']),
    // The custom requests are types that client and server share.
    mayImportOnly('assist', ['process', 'program', 'trade', 'machine', 'picture', 'cut', 'requests.ts']),
    {
      name: 'core-does-no-input-or-output',
      comment: 'The core also runs in a browser worker.',
      severity: 'error',
      from: { path: core },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'only-assist-and-entries-know-the-protocol',
      severity: 'error',
      from: { path: '^server/src/(program|trade|machine|process|picture|cut)/' },
      to: { path: editorProtocol },
    },
    {
      name: 'client-takes-only-types-from-server',
      severity: 'error',
      from: { path: '^client/src/' },
      to: { path: '^server/src/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'server-knows-no-client',
      severity: 'error',
      from: { path: '^server/src/' },
      to: { path: '^client/' },
    },
    {
      name: 'product-knows-no-tests',
      severity: 'error',
      from: { path: own },
      to: { path: '^test/' },
    },
    { name: 'no-circles', severity: 'error', from: { path: own }, to: { circular: true } },
    { name: 'everything-resolves', severity: 'error', from: { path: own }, to: { couldNotResolve: true, pathNot: '^vscode$' } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
      extensions: ['.ts', '.mts', '.mjs', '.js', '.cjs', '.json', '.d.ts'],
    },
  },
};
