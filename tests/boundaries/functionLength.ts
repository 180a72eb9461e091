import swc from '@swc/core';

export type LongFunction = { readonly name: string; readonly lines: number };
const MAX_LINES = 40;
/** swc counts bytes of UTF-8, and the first one as 1. */
const FIRST = 1;

type Node = {
  readonly type?: string;
  readonly span?: { readonly start: number; readonly end: number };
  readonly [key: string]: unknown;
};
const FUNCTIONS = new Set([
  'FunctionDeclaration',
  'FunctionExpression',
  'ArrowFunctionExpression',
  'ClassMethod',
  'MethodProperty',
]);

/** Functions of a source text that run over 40 lines, from the first line of the head to the closing brace. */
export function longFunctions(text: string, tsx: boolean): readonly LongFunction[] {
  const bytes = Buffer.from(text, 'utf8');
  const found: LongFunction[] = [];
  const walk = (node: unknown, name: string): void => {
    if (Array.isArray(node)) for (const child of node) walk(child, name);
    else if (typeof node === 'object' && node !== null) visit(node as Node, name);
  };
  const visit = (node: Node, name: string): void => {
    const own = nameOf(node) ?? name;
    if (node.type && FUNCTIONS.has(node.type) && node.span) {
      const lines = bytes
        .subarray(node.span.start - FIRST, node.span.end - FIRST)
        .toString('utf8')
        .split('\n').length;
      if (lines > MAX_LINES) found.push({ name: own, lines });
    }
    for (const [key, child] of Object.entries(node)) if (key !== 'span') walk(child, own);
  };
  walk(swc.parseSync(text, { syntax: 'typescript', tsx, target: 'es2022' }), '');
  return found;
}

function nameOf(node: Node): string | null {
  const holder = (node['identifier'] ?? node['id'] ?? node['key']) as
    | { readonly value?: unknown }
    | undefined;
  return typeof holder?.value === 'string' ? holder.value : null;
}
