#include <fmt/format.h>

#include <set>

#include "base/text.h"
#include "desk/frame/schema.h"
#include "desk/frame/schema_shape.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kHead = R"(// Made by `sherdwright schema --typescript`; do not edit.

/** The place an error speaks of. */
export interface ErrorWhere {
  file: string | null;
  sheet: string | null;
  row: number | null;
  line: number | null;
  column: string | null;
  id: string | null;
}

/** What went wrong, in one sentence, and the way out. */
export interface ErrorEntry {
  code: string;
  message: string;
  where: ErrorWhere;
  hint: string | null;
}

/** What every answer carries beside its own keys. */
export interface Envelope {
  ok: boolean;
  errors: ErrorEntry[];
  warnings: string[];
  provenance: Provenance;
}
)";

constexpr std::string_view kCalls = R"(
/** An answer that is none: the status and what the server says of it. */
export class ApiError extends Error {
  constructor(
    readonly status: number,
    readonly errors: ErrorEntry[],
    /** The whole answer, for what a use case says beside its errors: conflicts, problems. */
    readonly document: unknown = null,
  ) {
    super(errors[0]?.message ?? `The server answered ${status}.`);
    this.name = "ApiError";
  }
}

export interface CallOptions {
  signal?: AbortSignal;
}

type Given = string | number | boolean | string[] | null | undefined;

/** A request as the query of an address: a list repeats its name; what is null or undefined is left out. */
export function queryOf(request: object): string {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(request) as [string, Given][]) {
    if (value === null || value === undefined) continue;
    for (const one of Array.isArray(value) ? value : [value]) query.append(name, String(one));
  }
  const text = query.toString();
  return text === "" ? "" : `?${text}`;
}

/** One call; throws ApiError where the status is not 2xx. */
export async function call<T>(method: string, path: string, body?: object, options: CallOptions = {}): Promise<T> {
  const answer = await fetch(path, {
    method,
    credentials: "same-origin",
    headers: body === undefined ? {} : { "Content-Type": "application/json" },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    ...(options.signal === undefined ? {} : { signal: options.signal }),
  });
  const document = (await answer.json().catch(() => null)) as (T & { errors?: ErrorEntry[] }) | null;
  if (!answer.ok || document === null) throw new ApiError(answer.status, document?.errors ?? [], document);
  return document;
}
)";

constexpr std::string_view kFiles = R"(
/** Keeps a picture: PNG, JPEG or WebP, by its bytes. The answer names the document for a row of pictures. */
export async function keepFile(picture: Blob, options: CallOptions = {}): Promise<FileResponse> {
  const answer = await fetch("/api/files", {
    method: "POST",
    credentials: "same-origin",
    headers: { "Content-Type": "application/octet-stream" },
    body: picture,
    ...(options.signal === undefined ? {} : { signal: options.signal }),
  });
  const document = (await answer.json().catch(() => null)) as FileResponse | null;
  if (!answer.ok || document === null) throw new ApiError(answer.status, document?.errors ?? [], document);
  return document;
}

/** The address of a picture that was kept. */
export function fileAddress(name: string): string {
  return `/api/files?name=${encodeURIComponent(name)}`;
}
)";

constexpr std::string_view kJobs = R"(
/** Starts a use case beside the requests; its events tell how far it is. */
export function startJob<U extends UseCaseName>(
  useCase: U,
  request: UseCases[U]["request"],
  options?: CallOptions,
): Promise<JobState> {
  return call("POST", "/api/jobs", { use_case: useCase, request }, options);
}

export function job(id: string, options?: CallOptions): Promise<JobState> {
  return call("GET", `/api/jobs/${encodeURIComponent(id)}`, undefined, options);
}

/** The answer of a job that is done; 409 before that. */
export function jobResult<U extends UseCaseName>(
  _useCase: U,
  id: string,
  options?: CallOptions,
): Promise<UseCases[U]["response"]> {
  return call("GET", `/api/jobs/${encodeURIComponent(id)}/result`, undefined, options);
}

/** Stops a job that runs; forgets one that does not. */
export function cancelJob(id: string, options?: CallOptions): Promise<JobState> {
  return call("DELETE", `/api/jobs/${encodeURIComponent(id)}`, undefined, options);
}

/** Events of a job: `progress` any number of times, then `done` once, each with a JobState. Returns what closes them. */
export function watchJob(id: string, seen: (state: JobState) => void, lost?: () => void): () => void {
  const events = new EventSource(`/api/jobs/${encodeURIComponent(id)}/events`);
  const told = (event: MessageEvent<string>): void => seen(JSON.parse(event.data) as JobState);
  events.addEventListener("progress", told);
  events.addEventListener("done", (event) => {
    events.close();
    told(event);
  });
  events.addEventListener("error", () => {
    if (events.readyState === EventSource.CLOSED) lost?.();
  });
  return () => events.close();
}
)";

std::string type_of(const Shape& shape);

std::string bare_type(const Shape& shape) {
  switch (shape.kind) {
    case Shape::Kind::text:
      return "string";
    case Shape::Kind::boolean:
      return "boolean";
    case Shape::Kind::integer:
    case Shape::Kind::number:
    case Shape::Kind::year:
      return "number";
    case Shape::Kind::interval:
      return "[number, number]";
    case Shape::Kind::object:
      return shape.name;
    case Shape::Kind::map:
      return "Record<string, " + type_of(*shape.of) + ">";
    case Shape::Kind::list: {
      const std::string item = type_of(*shape.of);
      return item.find('|') == std::string::npos ? item + "[]" : "(" + item + ")[]";
    }
    case Shape::Kind::word:
      break;
  }
  std::vector<std::string> words;
  for (const std::string& word : shape.words) words.push_back("\"" + word + "\"");
  return join(words, " | ");
}

std::string type_of(const Shape& shape) { return bare_type(shape) + (shape.nullable ? " | null" : ""); }

std::string definition_text(const Definition& definition, bool response) {
  std::string out = fmt::format("\nexport interface {}{} {{\n", definition.name, response ? " extends Envelope" : "");
  for (const Property& property : definition.properties) {
    if (!property.help.empty()) out += "  /** " + property.help + " */\n";
    out += fmt::format("  {}{}: {};\n", property.name, property.required ? "" : "?", type_of(property.shape));
  }
  if (definition.others)
    out += "  /** Named values: " + type_of(*definition.others) + ". */\n  [name: string]: unknown;\n";
  return out + "}\n";
}

std::string function_text(const Operation& operation, const Definition& request) {
  bool optional = true;
  for (const Property& property : request.properties) optional = optional && !property.required;
  const std::string sent = operation.reads() ? " + queryOf(request), undefined" : ", request";
  return fmt::format(
      "\n/** {} {}: {}. */\nexport function {}(request: {}{}, options?: CallOptions): Promise<{}> {{\n"
      "  return call(\"{}\", \"{}\"{}, options);\n}}\n",
      operation.verb, operation.path, operation.help, camel_case(operation.name), operation.request,
      optional ? " = {}" : "", operation.response, operation.verb, operation.path, sent);
}

}  // namespace

std::string typescript() {
  const Schema schema = whole_schema();
  std::set<std::string> responses{"JobState", "FileResponse"};
  for (const Operation& operation : schema.operations) {
    responses.insert(operation.response);
  }
  std::string out(kHead);
  std::string functions;
  for (const Definition& definition : schema.definitions.all()) {
    out += definition_text(definition, responses.contains(definition.name));
    for (const Operation& operation : schema.operations) {
      if (operation.served() && operation.request == definition.name) functions += function_text(operation, definition);
    }
  }
  out +=
      "\n/** What the workbench may ask for as a job: the use cases that read. */\n"
      "export interface UseCases {\n";
  for (const Operation& operation : schema.operations) {
    if (operation.reads())
      out += fmt::format("  \"{}\": {{ request: {}; response: {} }};\n", operation.name, operation.request,
                         operation.response);
  }
  out += "}\n\nexport type UseCaseName = keyof UseCases;\n";
  out += kCalls;
  return out + functions + std::string(kFiles) + std::string(kJobs);
}

}  // namespace sherd::desk
