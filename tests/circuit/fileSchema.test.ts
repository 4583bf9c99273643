import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { circuitFileJsonSchema } from "../../shared/circuit";
import { EXAMPLES } from "../../shared/examples";
import { examples } from "../published/examples";

const FILE = "../../shared/circuit/circuit-file.schema.json";

type Schema = { readonly description?: string; readonly $ref?: string; readonly properties?: Record<string, Schema> };
type Root = Schema & { readonly $defs: Record<string, Schema> };

const schema = (): Root => JSON.parse(readFileSync(new URL(FILE, import.meta.url), "utf8"));

describe("the JSON Schema of circuit files", () => {
  // After a change of the zod schema: npx vitest run tests/circuit/fileSchema.test.ts --update
  it("in the repository is the one that the zod schema generates", () =>
    expect(`${JSON.stringify(circuitFileJsonSchema(), null, 2)}\n`).toMatchFileSnapshot(FILE));

  it("describes every field", () => {
    const root = schema();
    const described = ({ description, $ref }: Schema): boolean =>
      (description ?? root.$defs[$ref?.split("/").at(-1) ?? ""]?.description) !== undefined;
    const silent = Object.entries({ "circuit file": root, ...root.$defs }).flatMap(([owner, { properties = {} }]) =>
      Object.entries(properties).flatMap(([field, property]) => (described(property) ? [] : [`${owner}.${field}`])),
    );
    expect(silent).toEqual([]);
  });

  it("by itself takes every published and every example circuit", () => {
    const alone = z.fromJSONSchema(schema() as Parameters<typeof z.fromJSONSchema>[0]);
    for (const file of [...examples, ...EXAMPLES.map(({ json }) => json)]) {
      expect(alone.safeParse(file).error?.issues ?? []).toEqual([]);
    }
  });

  it("by itself refuses what has the wrong shape", () => {
    const alone = z.fromJSONSchema(schema() as Parameters<typeof z.fromJSONSchema>[0]);
    const element = { id: "R1", kind: "resistor", nodes: ["a", "b"], value: "2 Ω" };
    expect(alone.safeParse({ elements: [element] }).success).toBe(true);
    for (const change of [{ kind: "resister" }, { nodes: ["a"] }, { id: "" }, { value: null }, { vale: 2 }]) {
      expect(alone.safeParse({ elements: [{ ...element, ...change }] }).success).toBe(false);
    }
    expect(alone.safeParse({ elements: [], version: 2 }).success).toBe(false);
  });
});
