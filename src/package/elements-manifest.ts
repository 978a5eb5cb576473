import { parseSync } from 'vite';

interface Documented {
  readonly name: string;
  readonly type?: { readonly text: string };
  readonly syntax?: string;
  readonly description: string;
}

/** What the manifest says of one member of the element. Source: Custom Elements Manifest, schema 2.1.0. */
export interface ManifestMember extends Documented {
  readonly kind: 'field' | 'method';
  readonly readonly?: true;
  readonly parameters?: readonly Omit<Documented, 'description'>[];
  readonly return?: { readonly type: { readonly text: string } };
}

export interface ElementsManifest {
  readonly schemaVersion: '2.1.0';
  readonly readme: string;
  readonly modules: readonly {
    readonly kind: 'javascript-module';
    readonly path: string;
    readonly declarations: readonly {
      readonly kind: 'class';
      readonly customElement: true;
      readonly tagName: string;
      readonly name: string;
      readonly superclass: { readonly name: string };
      readonly description: string;
      readonly attributes: readonly Documented[];
      readonly members: readonly ManifestMember[];
      readonly events: readonly Documented[];
      readonly cssParts: readonly Documented[];
      readonly cssProperties: readonly Documented[];
    }[];
    readonly exports: readonly object[];
  }[];
}

const TAG_NAME = 'evenfield-bench';
const CLASS = 'EvenfieldBench';

/**
 * The manifest of the one public element, made from the interface that describes it: members with their own comments,
 * the rest from the tags of the comment at its head.
 *
 * @param source of `bench-element.ts`
 * @param path of the module in the package
 */
export function elementsManifest(source: string, path: string): ElementsManifest {
  const { program, comments } = parseSync('bench-element.ts', source);
  const [element] = program.body.flatMap((node) =>
    node.type === 'ExportNamedDeclaration' &&
    node.declaration?.type === 'TSInterfaceDeclaration' &&
    node.declaration.id.name === 'BenchElement'
      ? [{ at: node.start, members: node.declaration.body.body }]
      : [],
  );
  if (element === undefined) throw new Error('there is no interface BenchElement');
  const text = ({ start, end }: { start: number; end: number }) => source.slice(start, end);
  const commentBefore = (at: number) => {
    const last = comments.filter(({ end }) => end <= at).at(-1);
    return last && source.slice(last.end, at).trim() === '' ? plain(last.value) : '';
  };
  const members = element.members.flatMap((member): ManifestMember[] => {
    if (member.type !== 'TSPropertySignature' && member.type !== 'TSMethodSignature') return [];
    const name = text(member.key);
    const description = commentBefore(member.start);
    if (description === '') return []; // what every element has, in types of our own
    if (member.type === 'TSPropertySignature')
      return [
        {
          ...{ kind: 'field', name, description },
          ...(member.typeAnnotation && { type: { text: text(member.typeAnnotation.typeAnnotation) } }),
          ...(member.readonly && { readonly: true }),
        },
      ];
    const parameters = member.params.map((parameter) => {
      const [parameterName, ...type] = text(parameter).split(': ');
      return { name: parameterName!.replace('?', ''), type: { text: type.join(': ') } };
    });
    const returned = member.returnType && { type: { text: text(member.returnType.typeAnnotation) } };
    return [{ kind: 'method', name, description, parameters, ...(returned && { return: returned }) }];
  });
  const head = commentBefore(element.at);
  const declaration = { name: CLASS, module: path };
  return {
    schemaVersion: '2.1.0',
    readme: 'dist/package/README.md',
    modules: [
      {
        kind: 'javascript-module',
        path,
        declarations: [
          {
            ...{ kind: 'class', customElement: true, tagName: TAG_NAME, name: CLASS },
            ...{ superclass: { name: 'HTMLElement' }, description: head.split('\n')[0]! },
            ...{ attributes: tagged(head, 'attr'), members, events: tagged(head, 'event') },
            cssParts: tagged(head, 'csspart'),
            cssProperties: tagged(head, 'cssproperty').map(({ type, ...rest }) => ({
              ...rest,
              ...(type && { syntax: `<${type.text}>` }),
            })),
          },
        ],
        exports: [
          { kind: 'js', name: CLASS, declaration },
          { kind: 'custom-element-definition', name: TAG_NAME, declaration },
        ],
      },
    ],
  };
}

/** A comment's text without its stars. */
function plain(comment: string): string {
  const lines = comment.replace(/^\*/, '').split('\n');
  return lines
    .map((line) => line.replace(/^\s*\*\s?/, '').trim())
    .join('\n')
    .trim();
}

/** Lines such as "@csspart name - {type} What it is." */
function tagged(head: string, tag: string): Documented[] {
  const lines = head.matchAll(new RegExp(`^@${tag} (\\S+) - (?:\\{(.+?)\\} )?(.+)$`, 'gm'));
  return Array.from(lines, ([, name, type, description]) => ({
    name: name!,
    ...(type !== undefined && { type: { text: type } }),
    description: description!,
  }));
}
