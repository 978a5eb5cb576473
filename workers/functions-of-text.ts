/**
 * LibRaw's glue makes functions of text, to hand values over to WebAssembly and back. A policy against scripts refuses
 * that, and there is no need of it: the texts are plain (one call a line, of functions that are handed in by name), so
 * they are gone by here instead, and no script is made of text.
 */
type Names = Map<string, unknown>;
type Expression = (names: Names) => unknown;
type Callable = (...given: unknown[]) => unknown;

/**
 * A stand-in for the platform's `Function`, which knows such texts; any other goes to the platform's own, which makes a
 * function of it where the policy lets it.
 */
export function withKnownTexts(Native: FunctionConstructor): FunctionConstructor {
  function Known(...texts: unknown[]) {
    const [names, body] = [texts.slice(0, -1).join(','), String(texts.at(-1) ?? '')];
    return functionOfText(names.split(','), body) ?? new Native(...texts.map(String));
  }
  Known.prototype = Native.prototype;
  return Known as unknown as FunctionConstructor;
}

/**
 * What `new Function(names, text)` would make of the text of one function; `null` where it is not such a text.
 *
 * @param names of what is handed in when it is made.
 */
export function functionOfText(names: readonly string[], text: string): Callable | null {
  const [first = '', ...lines] = text.trim().split('\n');
  const parameters = /^return function \(([\w, ]*)\) \{$/.exec(first)?.[1];
  if (parameters === undefined || lines.pop() !== '}') return null;
  const parameterNames = parameters.split(',').map((name) => name.trim());
  const statements = lines.map(statementOf);
  if (statements.includes(null)) return null;
  return (...handed) => {
    const outer: [string, unknown][] = names.map((name, i) => [name, handed[i]]);
    return function (this: unknown, ...given: unknown[]) {
      const known: Names = new Map([...outer, ['this', this], ['null', null]]);
      parameterNames.forEach((name, i) => {
        known.set(name, given[i]);
      });
      for (const statement of statements) {
        const value = statement!.work(known);
        if (statement!.into !== null) known.set(statement!.into, value);
        if (statement!.isReturned) return value;
      }
      return undefined;
    };
  };
}

interface Statement {
  readonly work: Expression;
  /** The variable that takes its value. */
  readonly into: string | null;
  readonly isReturned: boolean;
}

function statementOf(line: string): Statement | null {
  const [, start = '', into = null, text = ''] = /^(var (\w+) = |return )?(.+?);?$/.exec(line) ?? [];
  const reader = new ExpressionReader(text);
  const work = reader.whole();
  return work && { work, into, isReturned: start === 'return ' };
}

/** Reads names, numbers, calls, members, `new (…)`, `[]` and sums. */
class ExpressionReader {
  private readonly tokens: readonly string[];
  private at = 0;

  constructor(text: string) {
    this.tokens = text.match(/\w+|[^\s\w]/g) ?? [];
  }

  /** `null` where the text is anything else. */
  whole(): Expression | null {
    try {
      const work = this.sum();
      return this.at === this.tokens.length ? work : null;
    } catch (error) {
      if (error instanceof SyntaxError) return null;
      throw error;
    }
  }

  private sum(): Expression {
    let left = this.chain();
    while (this.takes('+')) {
      const [a, b] = [left, this.chain()];
      left = (names) => (a(names) as number) + (b(names) as number);
    }
    return left;
  }

  private chain(): Expression {
    let value = this.single();
    for (;;) {
      if (this.takes('(')) {
        const [callee, given] = [value, this.list()];
        value = (names) => (callee(names) as Callable)(...given.map((each) => each(names)));
      } else if (this.takes('[')) value = this.member(value);
      else return value;
    }
  }

  /** A member that is called is called as one of its object. */
  private member(object: Expression): Expression {
    const key = this.sum();
    this.take(']');
    if (!this.takes('(')) return (names) => (object(names) as Record<string, unknown>)[key(names) as string];
    const given = this.list();
    return (names) => {
      const owner = object(names) as Record<string, Callable>;
      return owner[key(names) as string]!(...given.map((each) => each(names)));
    };
  }

  private single(): Expression {
    if (this.takes('(')) {
      const inner = this.sum();
      this.take(')');
      return inner;
    }
    if (this.takes('[')) {
      this.take(']');
      return () => [];
    }
    const token = this.tokens[this.at++] ?? '';
    if (token === 'new') {
      this.take('(');
      const maker = this.sum();
      this.take(')');
      this.take('(');
      const given = this.list();
      return (names) =>
        Reflect.construct(
          maker(names) as new () => object,
          given.map((each) => each(names)),
        );
    }
    if (/^\d+$/.test(token)) return () => Number(token);
    if (!/^\w+$/.test(token)) throw new SyntaxError(token);
    return (names) => {
      if (!names.has(token)) throw new ReferenceError(`${token} is not defined`);
      return names.get(token);
    };
  }

  private list(): Expression[] {
    const all: Expression[] = [];
    if (this.takes(')')) return all;
    do all.push(this.sum());
    while (this.takes(','));
    this.take(')');
    return all;
  }

  private takes(token: string): boolean {
    if (this.tokens[this.at] !== token) return false;
    this.at++;
    return true;
  }

  private take(token: string): void {
    if (!this.takes(token)) throw new SyntaxError(`${token} expected`);
  }
}
