import swc from '@swc/core';
import { cruise, type ICruiseResult } from 'dependency-cruiser';
import { importRules } from './importRules.ts';

/** dependency-cruiser 17 asks swc for TypeScript without JSX, which refuses every .tsx file: say so per file. */
const parseFile = swc.parseFileSync.bind(swc);
swc.parseFileSync = ((file: string, options: object) =>
  parseFile(file, { ...options, tsx: file.endsWith('.tsx') } as Parameters<
    typeof parseFile
  >[1])) as typeof swc.parseFileSync;

export type Violation = { readonly rule: string; readonly from: string; readonly to: string };

/** Cruises the source folders below `baseDir` with the project's rules. swc reads the files: TypeScript 7 has no API for it. */
export async function cruiseTree(
  baseDir: string,
  folders: readonly string[],
): Promise<{ modules: readonly string[]; violations: readonly Violation[] }> {
  const result = await cruise([...folders], {
    baseDir,
    ruleSet: importRules as NonNullable<Parameters<typeof cruise>[1]>['ruleSet'] & object,
    validate: true,
    parser: 'swc',
    tsPreCompilationDeps: true,
    doNotFollow: { path: ['node_modules'] },
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.css', '.json'],
      conditionNames: ['import', 'node', 'default'],
      exportsFields: ['exports'],
    },
    exclude: { path: '\\.(css|woff2|svg|json)$' },
  });
  const output = result.output as ICruiseResult;
  return {
    modules: output.modules.map((m) => m.source).filter((s) => folders.some((f) => s.startsWith(`${f}/`))),
    violations: output.summary.violations.map((v) => ({ rule: v.rule.name, from: v.from, to: v.to })),
  };
}
