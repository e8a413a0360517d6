"""The kinds of problem that the service tells of. Each has a page at its own type URI."""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class ProblemType:
    """A kind of problem: the last part of its URI, its HTTP status, its title, and what to do about it."""

    slug: str
    status: int
    title: str
    remedy: str

    @property
    def uri(self) -> str:
        """The type URI, relative to the service that answers it."""
        return f"/problems/{self.slug}"


BAD_REQUEST: Final = ProblemType(
    "bad-request",
    400,
    "The request is malformed",
    "The HTTP request itself breaks the protocol, such as by its Host header. Send it with an ordinary HTTP client.",
)
UNKNOWN_QUERY: Final = ProblemType(
    "unknown-query",
    400,
    "The request has query parameters",
    "But for the language of the demo, no resource of the service takes query parameters. Put the whole request into "
    "the JSON body.",
)
NOT_JSON: Final = ProblemType(
    "not-json",
    400,
    "The body is not JSON",
    "The body must be one JSON text (RFC 8259) in UTF-8 without a byte order mark, and nested no deeper than the "
    "contract asks for.",
)
SCHEMA: Final = ProblemType(
    "schema",
    400,
    "The body breaks the schema",
    "Each entry of `errors` holds a JSON Pointer to a field and says what was expected there. The schema stands in "
    "/openapi.json.",
)
UNKNOWN_ENDPOINT: Final = ProblemType(
    "unknown-endpoint",
    404,
    "There is no such endpoint",
    "`endpoint` of a batch's item is the last part of an endpoint's path, such as `sounding`. A batch holds no batch.",
)
UNAUTHENTICATED: Final = ProblemType(
    "unauthenticated",
    401,
    "A key is needed",
    "Send a key that the operator of the service has given you, in the header Authorization: Bearer <key>.",
)
FORBIDDEN: Final = ProblemType(
    "forbidden",
    403,
    "The key does not allow it",
    "The key is known, but it has run out, or it is not for this endpoint. Ask the operator of the service.",
)
NOT_FOUND: Final = ProblemType(
    "not-found",
    404,
    "There is nothing at this path",
    "The paths of the service stand in /openapi.json.",
)
METHOD_NOT_ALLOWED: Final = ProblemType(
    "method-not-allowed",
    405,
    "The method is not allowed here",
    "The header Allow lists the methods that this path takes.",
)
NOT_ACCEPTABLE: Final = ProblemType(
    "not-acceptable",
    406,
    "No representation is acceptable",
    "Send an Accept header that admits application/json, or none.",
)
REQUEST_TIMEOUT: Final = ProblemType(
    "request-timeout",
    408,
    "The request did not come in time",
    "The request has to come in whole within the time that `detail` tells. Send it again over a better connection.",
)
BODY_TOO_LARGE: Final = ProblemType(
    "body-too-large",
    413,
    "The body is too large",
    "Send less in one request. The limit stands in `detail`.",
)
UNSUPPORTED_MEDIA_TYPE: Final = ProblemType(
    "unsupported-media-type",
    415,
    "The body's type or coding is not supported",
    "Send application/json in UTF-8, without a content coding.",
)
REFUSED: Final = ProblemType(
    "refused",
    422,
    "Physics or the trade does not allow it",
    "The body fits the schema, but what it describes cannot be: a number lies outside the range of its field, or two "
    "inputs contradict each other. Each entry of `errors` holds a JSON Pointer to a field and says why.",
)
BEYOND_RECKONING: Final = ProblemType(
    "beyond-reckoning",
    422,
    "The answer cannot be reckoned",
    "Each input is allowed by itself, but together they lead beyond what the method can reckon. Inputs nearer to a "
    "real installation will do.",
)
TOO_MUCH_WORK: Final = ProblemType(
    "too-much-work",
    422,
    "The request asks for too much work",
    "What a request takes is reckoned before it is begun, in times of a plain suction-feasibility. It grows with the "
    "lists (parts, flows, readings, points, demands, elements and modes), as all of a list is gone through, and with "
    "the uncertain inputs, as for each the answer is worked out twice more; a line with any is reckoned as if its "
    "chance had to be found by many draws. A list may also be longer than this service takes. Ask in several requests, "
    "with shorter lists, or with fewer uncertain inputs. The limit, and what a request came to, stand in `detail`.",
)
TOO_MANY_REQUESTS: Final = ProblemType(
    "too-many-requests",
    429,
    "Too many requests",
    "The allowance for this time is used up. The header Retry-After tells after how many seconds there is a new one.",
)
HEAD_TOO_LARGE: Final = ProblemType(
    "head-too-large",
    431,
    "The head of the request is too large",
    "Send shorter headers, or fewer. The limit stands in `detail`.",
)
INTERNAL_ERROR: Final = ProblemType(
    "internal-error",
    500,
    "The service failed",
    "The fault is the service's own. Tell its operator the `request_id`.",
)
UNKNOWN_METHOD: Final = ProblemType(
    "unknown-method",
    501,
    "The method is not known",
    "The service knows GET, HEAD, POST and OPTIONS, in capital letters. The answer to OPTIONS lists those of its path "
    "in the header Allow.",
)
OVERLOADED: Final = ProblemType(
    "overloaded",
    503,
    "The service has too much to do",
    "Nothing was done. Ask again after the seconds that the header Retry-After tells.",
)
CLOSING_DOWN: Final = ProblemType(
    "closing-down",
    503,
    "The service closes down",
    "This process ends and takes no more work; what had to be finished was not, if this is the answer to it. Ask again "
    "after the seconds that the header Retry-After tells: another process will answer.",
)

PROBLEM_TYPES: Final = (
    BAD_REQUEST,
    UNKNOWN_QUERY,
    NOT_JSON,
    SCHEMA,
    UNKNOWN_ENDPOINT,
    UNAUTHENTICATED,
    FORBIDDEN,
    NOT_FOUND,
    METHOD_NOT_ALLOWED,
    NOT_ACCEPTABLE,
    REQUEST_TIMEOUT,
    BODY_TOO_LARGE,
    UNSUPPORTED_MEDIA_TYPE,
    REFUSED,
    BEYOND_RECKONING,
    TOO_MUCH_WORK,
    TOO_MANY_REQUESTS,
    HEAD_TOO_LARGE,
    INTERNAL_ERROR,
    UNKNOWN_METHOD,
    OVERLOADED,
    CLOSING_DOWN,
)
