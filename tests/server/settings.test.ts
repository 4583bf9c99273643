import { expect, it } from "vitest";
import { OperatorError } from "../../server/database";
import { readSettings } from "../../server/settings";

it("without variables the server is at port 3000 of this machine alone, with its data in .data", () => {
  expect(readSettings({})).toEqual({ port: 3000, host: "127.0.0.1", dataFolder: ".data" });
  expect(readSettings({ PORT: "", HOST: "", ADDEND_DATA: "" })).toEqual(readSettings({}));
});

it("takes port, host and data folder from variables", () => {
  const settings = readSettings({ PORT: "0", HOST: "0.0.0.0", ADDEND_DATA: "/srv/addend" });
  expect(settings).toEqual({ port: 0, host: "0.0.0.0", dataFolder: "/srv/addend" });
});

it.each(["65536", "-1", "3000.5", "http", "0x10", " 80", "1e3"])(
  "refuses the port %j and names the variable",
  (PORT) => {
    expect(() => readSettings({ PORT })).toThrow(OperatorError);
    expect(() => readSettings({ PORT })).toThrow(`PORT is to be a number from 0 to 65535, not "${PORT}".`);
  },
);
