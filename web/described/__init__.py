"""What the pages answer to a program, described as OpenAPI 3.1 (https://spec.openapis.org/oas/v3.1.0)."""
