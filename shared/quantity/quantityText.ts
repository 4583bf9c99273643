import { agreedUnit, finish, readAmount } from "./amount";
import { accept, startReading } from "./cursor";
import type { Reading } from "./problem";
import type { UnitSymbol } from "./unit";
import { type UnitValue, unitValue } from "./unitValue";

/**
 * Reads one quantity, such as `3.3 kΩ`, `3k3`, `−12 V`, `1/3 A`, `2.2e3` or `22 µF`, exactly, into the coherent SI unit.
 *
 * `unit` is the unit wanted, or several that will do. A bare number or prefix (`3.3k`) takes the wanted unit where
 * there is one only. Letter codes after IEC 60062 are read for Ω and F; `u` stands for µ, `K` for k, a comma for the
 * decimal point wherever it cannot be a group of thousands.
 * Problems: every {@link QuantityFault} but those about the parts of a sinusoid. Throws nothing.
 */
export function readQuantity<U extends UnitSymbol>(text: string, unit: U | readonly U[]): Reading<UnitValue<U>> {
  const wanted = typeof unit === "string" ? [unit] : unit;
  const start = startReading(text, wanted);
  if (!start.ok) return start;
  const cursor = start.value;
  const amount = readAmount(cursor);
  if (!amount.ok) return amount;
  const whole = finish(cursor, amount.value, wanted);
  if (!whole.ok) return whole;
  const agreed = agreedUnit(cursor, amount.value, wanted);
  return agreed.ok ? accept(unitValue(amount.value.value, agreed.value)) : agreed;
}
