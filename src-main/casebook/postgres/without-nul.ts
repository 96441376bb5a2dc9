import {
  OperationNodeTransformer,
  type KyselyPlugin,
  type PluginTransformQueryArgs,
  type PluginTransformResultArgs,
  type PrimitiveValueListNode,
  type QueryResult,
  type RootOperationNode,
  type UnknownRow,
  type ValueNode,
} from 'kysely';

/** PostgreSQL keeps no NUL in a text. Nobody types one; what comes in by a file may have it, in words but never in a log's JSON. */
export function withoutNul(value: unknown): unknown {
  return typeof value === 'string' && value.includes('\0') ? value.replaceAll('\0', '\uFFFD') : value;
}

class NulReplacer extends OperationNodeTransformer {
  override transformValue(node: ValueNode): ValueNode {
    return { ...node, value: withoutNul(node.value) };
  }

  override transformPrimitiveValueList(node: PrimitiveValueListNode): PrimitiveValueListNode {
    return { ...node, values: node.values.map(withoutNul) };
  }
}

/** Puts the mark for an unreadable character where a NUL stands in what is about to be written. */
export class WithoutNulPlugin implements KyselyPlugin {
  readonly #replacer = new NulReplacer();

  transformQuery({ node, queryId }: PluginTransformQueryArgs): RootOperationNode {
    return this.#replacer.transformNode(node, queryId);
  }

  transformResult({ result }: PluginTransformResultArgs): Promise<QueryResult<UnknownRow>> {
    return Promise.resolve(result);
  }
}
