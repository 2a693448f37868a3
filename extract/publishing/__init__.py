"""What leaves the lab: tables and bills of materials, and the report that is published."""

from extract.publishing.export import FORMS, export

__all__ = ["FORMS", "export"]
