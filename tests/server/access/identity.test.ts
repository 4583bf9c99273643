import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Identity } from "../../../server/access";

const SECRET = new Uint8Array(32).fill(1);
const YEAR = 365 * 24 * 3600 * 1000;
let now = 1_790_000_000_000;
const identity = new Identity(SECRET, () => now);
const cookieOf = (participant: string, by = identity) => by.cookie(participant).split(";", 1)[0] as string;

describe("a cookie", () => {
  it("says who somebody is, among others' cookies, until a year has passed", () => {
    const participant = identity.newParticipant();
    const cookie = cookieOf(participant);
    expect(identity.read(`a=1; ${cookie}; b=2`)).toBe(participant);
    now += YEAR - 1000;
    expect(identity.read(cookie)).toBe(participant);
    now += 1000;
    expect(identity.read(cookie)).toBeNull();
  });

  it("of another server, or signed for another participant or a later time, says nothing", () => {
    const [one, two] = [identity.newParticipant(), identity.newParticipant()];
    const other = new Identity(new Uint8Array(32).fill(2), () => now);
    expect(identity.read(cookieOf(one, other))).toBeNull();
    const [, until, signature] = cookieOf(one).split(".");
    expect(identity.read(`addend_who=${two}.${until}.${signature}`)).toBeNull();
    expect(identity.read(`addend_who=${one}.${until}0.${signature}`)).toBeNull();
  });

  it("that comes twice counts where one of them is good", () => {
    const participant = identity.newParticipant();
    expect(identity.read(`addend_who=forged; ${cookieOf(participant)}`)).toBe(participant);
  });

  it("with any character changed, or any text at all, says nothing and harms nothing", () => {
    const good = cookieOf(identity.newParticipant());
    const start = "addend_who=".length;
    const changed = fc
      .tuple(fc.integer({ min: start, max: good.length - 1 }), fc.string({ minLength: 1, maxLength: 1 }))
      .map(([at, letter]) => `${good.slice(0, at)}${letter}${good.slice(at + 1)}`)
      // The last character of the signature holds two bits that no byte needs: they are part of the text all the same.
      .filter((text) => text !== good && !/[ \t;]/.test(text));
    fc.assert(
      fc.property(fc.oneof(changed, fc.string(), fc.constant(undefined)), (header) => {
        expect(identity.read(header)).toBeNull();
      }),
      { numRuns: 1000 },
    );
  });
});
