import { parseSync } from 'vite';

/** One place where a file names another: any form of import, re-export, or a worker's URL. */
export interface ImportLine {
  readonly specifier: string;
  /** Whether nothing of it is left when the types are taken away. */
  readonly typeOnly: boolean;
}

type Node = Readonly<Record<string, unknown>>;

/**
 * Every import of a TypeScript source, found by a parser, so that neither comments, strings nor line breaks mislead:
 * static, bare and dynamic imports, re-exports, `import('…')` types, and `new URL('…', import.meta.url)`. A dynamic
 * import of anything but a plain string is given as '(computed)', which no rule allows.
 *
 * @throws Error where the source does not parse.
 */
export function importLines(source: string, fileName = 'source.ts'): ImportLine[] {
  const { program, errors } = parseSync(fileName, source);
  if (errors.length > 0) throw new Error(`${fileName}: ${errors[0]!.message}`);
  const lines: ImportLine[] = [];
  visit(program as unknown as Node, lines);
  return lines;
}

function visit(node: Node, lines: ImportLine[]): void {
  const add = (source: unknown, typeOnly: boolean) => {
    const literal = source as { value?: unknown; quasis?: { value: { cooked: string } }[] } | null;
    if (!literal) return;
    const fixed = literal.quasis?.length === 1 ? literal.quasis[0]!.value.cooked : literal.value;
    lines.push({ specifier: typeof fixed === 'string' ? fixed : '(computed)', typeOnly });
  };
  switch (node.type) {
    case 'ImportDeclaration':
      add(node.source, node.importKind === 'type' || everyIsType(node.specifiers, 'importKind'));
      break;
    case 'ExportNamedDeclaration':
      add(node.source, node.exportKind === 'type' || everyIsType(node.specifiers, 'exportKind'));
      break;
    case 'ExportAllDeclaration':
      add(node.source, node.exportKind === 'type');
      break;
    case 'ImportExpression':
      add(node.source, false);
      break;
    case 'TSImportType':
      add(node.source ?? (node.argument as Node).literal, true);
      break;
    case 'TSExternalModuleReference':
      add(node.expression, false);
      break;
    case 'CallExpression':
      if ((node.callee as Node).name === 'require') add((node.arguments as Node[])[0], false);
      break;
    case 'NewExpression':
      if ((node.callee as Node).name === 'URL' && isOwnCode(node.arguments as Node[]))
        add((node.arguments as Node[])[0], false);
      break;
  }
  for (const value of Object.values(node)) {
    if (Array.isArray(value)) {
      for (const item of value) if (isNode(item)) visit(item, lines);
    } else if (isNode(value)) visit(value, lines);
  }
}

function everyIsType(specifiers: unknown, kind: string): boolean {
  const all = specifiers as Node[];
  return all.length > 0 && all.every((specifier) => specifier[kind] === 'type');
}

/** `new URL('./code.ts', import.meta.url)`; an address of anything but code is no import. */
function isOwnCode([address, base]: readonly Node[]): boolean {
  const value = address?.value;
  if (typeof value === 'string' && !/\.[cm]?[jt]s(\?.*)?$/.test(value)) return false;
  const meta = base?.object as Node | undefined;
  return (base?.property as Node | undefined)?.name === 'url' && meta?.type === 'MetaProperty';
}

function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';
}
